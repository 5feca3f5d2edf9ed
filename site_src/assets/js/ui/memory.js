/* The last choice, kept in the browser. Storage may be forbidden or full: then nothing is remembered, and nothing breaks. */

const KEY = "ringfence.last";

export function remember(text) {
  try {
    localStorage.setItem(KEY, text);
  } catch {
    return false;
  }
  return true;
}

export function remembered() {
  try {
    return localStorage.getItem(KEY) || "";
  } catch {
    return "";
  }
}
