/* Was this page put together from two versions of the site? Every script tells its edition when it has run, and the page carries its own: half a
   deploy, or an old copy in a browser, would else show verdicts of one version's data by another one's rules. */
export function mixed() {
  const own =
    typeof document === "object" && document.querySelector
      ? document.querySelector("meta[name=edition]")
      : null;
  return (
    new Set([...Object.values(Ringfence.editions || {}), ...(own && own.content ? [own.content] : [])]).size >
    1
  );
}
