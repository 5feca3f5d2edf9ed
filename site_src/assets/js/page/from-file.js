/* Opened from a disc, a folder does not answer with its index.html: name the file in links within the site. */
if (location.protocol === "file:") {
  document.addEventListener(
    "click",
    (event) => {
      const link = event.target.closest("a[href]");
      if (!link || link.protocol !== "file:") return;
      const address = new URL(link.href);
      if (!address.pathname.endsWith("/")) return;
      address.pathname += "index.html";
      link.href = address.href;
    },
    true,
  );
}
