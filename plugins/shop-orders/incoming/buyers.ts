/** Who an order is from: the same e-mail address, or the same name and address, is the same buyer. */
import type { Look } from '../../../server/contract/look.ts';
import { personStream } from '../../../server/contract/studio/state.ts';
import type { SaidOrder } from './said.ts';

export class Buyers {
  readonly #byEmail = new Map<string, string>();
  readonly #byAddress = new Map<string, string>();

  constructor(private readonly look: Look) {}

  /** Opaque: an id made from the order's key where they are new. */
  async of(order: SaidOrder, key: string): Promise<string> {
    const email = order.email?.toLowerCase();
    const address = order.address && `${order.name}\n${order.address}`.toLowerCase();
    const here = (email && this.#byEmail.get(email)) ?? (address && !email && this.#byAddress.get(address));
    const buyer = here || (await this.#known(order)) || this.look.idOf('buyer', key);
    if (email) this.#byEmail.set(email, buyer);
    else if (address) this.#byAddress.set(address, buyer);
    return buyer;
  }

  async #known({ email, name, address }: SaidOrder): Promise<string | undefined> {
    if (email) return this.#remembered(await this.look.personsAbout(email));
    if (!name || !address) return undefined;
    const same = new Set(await this.look.personsAbout(name));
    const there = await this.look.personsAbout(address);
    return this.#remembered(there.filter((person) => same.has(person)));
  }

  async #remembered(persons: readonly string[]): Promise<string | undefined> {
    const states = await this.look.states(personStream, persons);
    return persons.find((person) => !states.get(person)!.forgotten);
  }
}
