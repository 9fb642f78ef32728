/** Buyers all over the world. Everybody and every place is invented: the towns mean nowhere, the postcodes cannot be. */
import type { Chance } from '../chance.ts';

interface Folk {
  readonly first: readonly string[];
  readonly last: readonly string[];
  readonly streets: readonly string[];
  readonly town: string;
  readonly postcode?: string;
  /** The family's name comes first. */
  readonly familyFirst?: boolean;
}

export const FOLK: Readonly<Record<string, Folk>> = {
  GB: {
    first: ['Isolde', 'Bartholomew', 'Prudence', 'Gideon', 'Marigold', 'Ambrose'],
    last: ['Farthingdown', 'Claypenny', 'Slipworthy', 'Kilnhurst', 'Potterel', 'Glazebridge'],
    streets: ['1 Nowhere Lane', '22 Unmade Row', '7 Lost Kiln Yard'],
    town: 'Neverby',
    postcode: 'ZZ1 1ZZ',
  },
  US: {
    first: ['Clementine', 'Obadiah', 'Tallulah', 'Ezra'],
    last: ['Mudbank', 'Wheelthrow', 'Bisquewell', 'Conefall'],
    streets: ['12 Nonesuch Ave', '340 Vanished Creek Rd'],
    town: 'Springless, ZZ',
    postcode: '00000',
  },
  DE: {
    first: ['Fritzi', 'Käthe', 'Änne', 'Jürgen'],
    last: ['Tonscherb', 'Lehmkuhl-Nirgend', 'Töpferling'],
    streets: ['Nirgendweg 1', 'Luftschlossgasse 9'],
    town: 'Nirgendheim',
    postcode: '00000',
  },
  FR: {
    first: ['Anaïs', 'Éloi', 'Gaëlle'],
    last: ['Terrebelle', 'Potdenulle', 'Argilier'],
    streets: ['5 rue de Nulle Part', '8 impasse du Four Perdu'],
    town: 'Néant-le-Vide',
    postcode: '00000',
  },
  JP: {
    first: ['しのぶ', 'かな', 'まどか'],
    last: ['窯田', '陶野', '土屋'],
    streets: ['架空区夢町1-2-3', '架空区雲町9-8'],
    town: '無い県',
    postcode: '000-0000',
    familyFirst: true,
  },
  IS: {
    first: ['Ásta', 'Þóra', 'Guðjón'],
    last: ['Glerberg', 'Leirdóttir', 'Brennsluson'],
    streets: ['Hvergigata 3', 'Ekkivegur 12'],
    town: 'Hvergibær',
    postcode: '000',
  },
  GR: {
    first: ['Σοφία', 'Ζηνοβία', 'Θάνος'],
    last: ['Κανάτα', 'Πηλίδου', 'Καμινάς'],
    streets: ['Πουθενά 5', 'Οδός Ονείρου 0'],
    town: 'Πουθενούπολη',
    postcode: '00000',
  },
  CZ: {
    first: ['Matěj', 'Božena', 'Řehoř'],
    last: ['Hrnčířův', 'Hlinková', 'Pecník'],
    streets: ['Nikdeulice 4', 'U Ztracené pece 1'],
    town: 'Nikdov',
    postcode: '000 00',
  },
  IN: {
    first: ['मृदुला', 'कुम्हारी', 'मिट्टन'],
    last: ['घटवाल', 'चाकवाल', 'सुराहीवाला'],
    streets: ['शून्य गली ०', 'खोई भट्ठी मार्ग १'],
    town: 'कहींनहींपुर',
    postcode: '000000',
  },
  KR: {
    first: ['토담', '가마'],
    last: ['정', '흙'],
    streets: ['없는로 1', '꿈길 99'],
    town: '없는시',
    postcode: '00000',
    familyFirst: true,
  },
  IL: {
    first: ['נעמה', 'חרסית'],
    last: ['כדורי', 'אובניים'],
    streets: ['רחוב שום מקום 1'],
    town: 'אין־עיר',
    postcode: '0000000',
  },
  GE: {
    first: ['ქეთო', 'თიხო'],
    last: ['თიხაძე', 'ქოთნიშვილი'],
    streets: ['არსადის ქუჩა 1'],
    town: 'არსადი',
    postcode: '0000',
  },
  NZ: {
    first: ['Ngaio', 'Wikitoria', 'Hamish'],
    last: ['Kerewhenua', 'Uku-Kore', 'Farkiln'],
    streets: ['1 Nowhere Track', '14 Lost Sheep Rd'],
    town: 'Whereless',
    postcode: '0000',
  },
};

export interface Buyer {
  readonly buyer: string;
  readonly name: string;
  readonly email: string;
  readonly address: string;
  readonly postcode?: string;
  readonly country: string;
}

/** @param id of the buyer, opaque @param number counts the buyers, for an address of their own */
export function someone(chance: Chance, country: string, id: string, number: number): Buyer {
  const folk = FOLK[country]!;
  const [first, last] = [chance.pick(folk.first), chance.pick(folk.last)];
  return {
    buyer: id,
    name: folk.familyFirst ? `${last} ${first}` : `${first} ${last}`,
    /* example.org is kept free for examples (RFC 2606). */
    email: `buyer${number}@example.org`,
    address: folk.familyFirst
      ? `${folk.town}${chance.pick(folk.streets)}`
      : `${chance.pick(folk.streets)}\n${folk.town}`,
    ...(folk.postcode ? { postcode: folk.postcode } : {}),
    country,
  };
}
