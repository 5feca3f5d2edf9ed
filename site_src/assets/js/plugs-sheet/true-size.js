/* The sheet of all plugs at true size: a bank card against the screen says how large a millimetre is here. Kept on this device. */

const KEY = "ringfence.millimetre";
let sheet, range, told;

function start() {
  sheet = document.getElementById("rf-true");
  if (!sheet) return;
  range = document.getElementById("rf-true-range");
  told = document.getElementById("rf-true-told");
  sheet
    .querySelectorAll("img[data-mm]")
    .forEach((image) => image.style.setProperty("--mm", image.dataset.mm));
  range.addEventListener("input", () => set(range.value, true));
  sheet
    .querySelectorAll("[data-step]")
    .forEach((button) =>
      button.addEventListener("click", () =>
        set(Number(range.value) + button.dataset.step * range.step, true),
      ),
    );
  const before = kept();
  set(before || 1, false);
  told.textContent = before
    ? "Set on this device already. Check it with a card now and then: a browser's zoom changes it."
    : "Not set yet: the pictures are roughly life size.";
}

function set(value, said) {
  range.value = value; // kept within its ends by the field itself
  sheet.style.setProperty("--rf-true", range.value);
  if (!said) return;
  told.textContent = "Set. Every picture below is now life size on this screen.";
  try {
    localStorage.setItem(KEY, range.value);
  } catch {
    /* asked again next time */
  }
}

/* What was set here before, as a number the slider can show; null for none. */
function kept() {
  try {
    const value = Number(localStorage.getItem(KEY));
    return value >= Number(range.min) && value <= Number(range.max) ? value : null;
  } catch {
    return null;
  }
}

document.addEventListener("DOMContentLoaded", start);
