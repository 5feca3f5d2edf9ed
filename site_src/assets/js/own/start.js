"use strict";
window.Ringfence = window.Ringfence || {};

/* The last of this bundle: devices of one's own are known from here on, and leads where the bench's scripts are here. */
Ringfence.own.register();
Ringfence.own.registerLeads();
