/* The last of this bundle: devices of one's own are known from here on, and leads where the bench's scripts are here. */

import { register } from "./devices.js";
import { registerLeads } from "./leads.js";

register();
registerLeads();
