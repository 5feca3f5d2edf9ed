/* A connector among what the search found bears its side view, as everywhere else its name stands. */

const list = document.querySelector(".md-search-result__list"),
  own = document.currentScript.src;
if (list)
  new MutationObserver(() =>
    list.querySelectorAll("a.md-search-result__link:not([data-seen])").forEach(picture),
  ).observe(list, { childList: true, subtree: true });

function picture(link) {
  link.dataset.seen = "";
  const [, id] = /\/connectors\/([\w-]+)\/(?:[?#]|$)/.exec(link.href) || [];
  const title = id && link.querySelector("article > h1");
  if (!title) return;
  const image = document.createElement("img");
  Object.assign(image, {
    src: new URL(`../../draw/side-${id}.svg`, own).href,
    alt: "",
    className: "rf-side rf-side--found",
    height: 32,
  });
  image.addEventListener("error", () => image.remove());
  title.after(image);
}
