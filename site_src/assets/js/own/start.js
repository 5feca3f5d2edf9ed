"use strict";
window.Ringfence = window.Ringfence || {};

/* The last of this bundle: devices of one's own are known from here on. */
Ringfence.own.register();
