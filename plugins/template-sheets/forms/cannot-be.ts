/** Measures that no pot can have; the sentence names the field and says what would be right. */
export class CannotBe extends Error {}

export const tooThick = (field: string): CannotBe =>
  new CannotBe(`“thickness” leaves nothing of “${field}”: the wall is thicker than the form there.`);
