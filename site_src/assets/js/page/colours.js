/* Light, dark or as the device has it: the switch in the header. The choice is kept where the theme's first script looks for it. */

const inputs = [...document.querySelectorAll("[data-md-component=palette] input")];
const kept = () => {
  try {
    return window.__md_get("__palette");
  } catch {
    return null;
  }
};
const colours = ({ dataset }) => ({
  scheme: dataset.mdColorScheme,
  primary: dataset.mdColorPrimary,
  accent: dataset.mdColorAccent,
});
const device = matchMedia("(prefers-color-scheme: light)");
const { index = 0 } = kept() || {};

/* The first input follows the device; each one's label leads to the next and stands alone. */
function wear(place) {
  const follows = inputs[place].dataset.mdColorMedia === "(prefers-color-scheme)";
  const shown = follows
    ? inputs.find(
        (one) => one.dataset.mdColorMedia === `(prefers-color-scheme: ${device.matches ? "light" : "dark"})`,
      )
    : inputs[place];
  inputs[place].checked = true;
  inputs.forEach((one, other) => {
    one.nextElementSibling.hidden = other !== place;
  });
  for (const [name, value] of Object.entries(colours(shown)))
    document.body.setAttribute(`data-md-color-${name}`, value);
}

if (inputs.length) {
  device.addEventListener("change", () => wear(inputs.findIndex((one) => one.checked)));
  inputs.forEach((one, place) =>
    one.addEventListener("change", () => {
      wear(place);
      window.__md_set("__palette", {
        index: place,
        color: { media: one.dataset.mdColorMedia, ...colours(one) },
      });
    }),
  );
  wear(index in inputs ? index : 0);
}
