"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.ui = Ringfence.ui || {};

/* The last choice, kept in the browser. Storage may be forbidden or full: then nothing is remembered, and nothing breaks. */
(function (ui) {
  const KEY = "ringfence.last";

  ui.remember = function (text) {
    try {
      localStorage.setItem(KEY, text);
    } catch (refused) {
      return false;
    }
    return true;
  };

  ui.remembered = function () {
    try {
      return localStorage.getItem(KEY) || "";
    } catch (refused) {
      return "";
    }
  };
})(Ringfence.ui);
