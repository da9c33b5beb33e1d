/** Who walked, in words: walkers by name, and those of a household with what they carry. */
import { guestName, isCarer, isInfant, laden } from '../agents/household/walkers.js';
import { LOADS, type Load } from '../agents/schema.js';
import type { Design } from '../scenario/schema.js';
import { named, oneWords, passageWords, whoWords } from './words.js';

/** What a walker is called. */
export type WhoWords = (who: string) => string;

const WITH: Readonly<Record<Load | 'infant', string>> = {
  infant: 'carrying an infant',
  rucksack: 'with a rucksack',
  'laundry-basket': 'with a laundry basket',
  tray: 'with a tray',
  suitcase: 'with a suitcase',
  trolley: 'with a trolley',
  pram: 'with a pram',
  rollator: 'with a rollator',
  wheelchair: 'with a wheelchair',
};

/** Names as visits carry them: `tom-infant` is '“tom” carrying an infant', `party-child` 'children of “party”'. */
export function whoIn({ household }: Pick<Design, 'household'>): WhoWords {
  if (household === undefined) return whoWords;
  const words = new Map<string, string>();
  for (const guests of [...household.visitors, ...household.parties])
    for (const { who } of guests.who)
      if (guests.who.length > 1)
        words.set(guestName(guests, who), `${whoWords(who)} of \u201c${named(guests.name)}\u201d`);
  for (const person of household.people) {
    if (isInfant(person)) continue;
    const own = `\u201c${named(person.name)}\u201d`;
    const carries: (Load | 'infant')[] = [...LOADS, ...(isCarer(person) ? (['infant'] as const) : [])];
    for (const what of carries) words.set(laden(person.name, what), `${own} ${WITH[what]}`);
  }
  // Whoever has the name itself goes before a made-up one.
  for (const { name } of [...household.people, ...household.pets, ...household.robots]) words.delete(name);
  return (who) => words.get(who) ?? whoWords(who);
}

/** What one of them is called: whoever has a name in a household by it, others as 'an adult'. */
export function oneIn(design: Pick<Design, 'household'>): WhoWords {
  const called = whoIn(design);
  return (who) => (called(who) === whoWords(who) ? oneWords(who) : called(who));
}

/** '“tom” carrying an infant, going through'; 'adults turning back'. */
export function doingWords(who: WhoWords, walker: string, kind: string): string {
  const plain = passageWords(walker, kind);
  const said = who(walker);
  const own = whoWords(walker);
  return said === own ? plain : `${said},${plain.slice(own.length)}`;
}
