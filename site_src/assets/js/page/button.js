/* A quiet button of the site's look; `act(button)` is what a tap does. */
export function button(words, act, label) {
  const made = document.createElement("button");
  Object.assign(made, { type: "button", className: "rf-button rf-button--quiet", textContent: words });
  if (label) made.setAttribute("aria-label", label);
  made.addEventListener("click", () => act(made));
  return made;
}
