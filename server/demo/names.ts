/** People round the demo studio. All invented: most are called after clay, kilns and pots in their own language. */

export const STUDENTS = [
  'Ottoline Marrowby',
  'Bríd Ní Chréafóg',
  'Łucja Glinkowska',
  'İpek Çamurcan',
  'Nguyễn Thị Gốm',
  'Ζηνοβία Πηλίδου',
  'Идалия Глиняных',
  'ქეთო თიხაძე',
  'Կավիկ Խեցունի',
  'ليان الفخّاري',
  'נעמה כדורי',
  'मृदुला घटवाल',
  'மண்மகள் குயவி',
  '陶野 かな',
  '정토담',
  'ดินดา ปั้นสุข',
  'ሸክላ አፈርወርቅ',
  'Þóra Leirdóttir',
  'Anaïs Terrebelle',
  'Fritzi Tonscherb',
  'Pádraig Slipworth',
  'Concha Barrolindo',
  'Ngaio Kerewhenua',
  'Tuuli Savenlahti',
  'Wilhelmina Kleikluit',
  'Gwenllian Priddoer',
] as const;

/** Neighbours whose ware is fired for hire. */
export const NEIGHBOURS = ['Barnaby Thrupp-Kilnwood', 'Odaline Quernstone', '土屋 まどか'] as const;

export const CLIENTS = {
  houseNumbers: 'Saltmarsh Row Residents',
  altarLamp: 'Chapel of the Nine Wells',
  hearth: 'Marguerite Hollowhearth',
} as const;

export const BUYERS = [
  'Isolde Farthingdown',
  'Ásta Glerberg',
  'Matěj Hrnčířův',
  'Σοφία Κανάτα',
  '窯田 しのぶ',
] as const;
