/** The laptop at Hollin Yard, as its system tells of it. */
import type { Machine } from '../../server/network/places.ts';

export const laptop = (address = '192.168.1.7'): Machine => ({
  hostname: 'hollin-laptop',
  interfaces: {
    wlan0: [{ address, netmask: '255.255.255.0', family: 'IPv4', mac: '', internal: false, cidr: null }],
  },
});
