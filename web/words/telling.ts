export const calendarWords = {
  title: 'Calendar',
  about:
    'Firings and due dates as a calendar that your own calendar program can follow. Whoever knows its address can read it, so keep it to yourself.',
  none: 'There is no address yet.',
  make: 'Make an address',
  address: 'Address of the calendar',
  copy: 'Copy it',
  copied: 'Copied.',
  change: 'Change the address',
  changeHint: 'The present one is shut at once; whoever follows it needs the new one.',
  changed: 'New address made.',
  shut: 'Shut the calendar',
  shutDone: 'The calendar is shut.',
  reach:
    'A program on this computer can follow it. For a phone, open this page on the phone first: its address is the one to follow there.',
} as const;

export const noticeWords = {
  title: 'Notices',
  about:
    'A notice when a kiln is to be drawn, a parcel is due or somebody is to be asked or told: on this device, while this page is open in it.',
  cannot:
    'With the page closed no notice can come: that would need a server outside the studio. The calendar above reminds you then.',
  ask: 'Show notices on this device',
  on: 'Notices are shown on this device.',
  off: 'Show none',
  refused: 'Notices were refused for this page. They can be allowed in the browser’s settings.',
  impossible: 'This browser shows no notices for this page.',
} as const;
