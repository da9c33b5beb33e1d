/** What to mind before drilling, wiring and counting people. Printed in every report. */
export interface Caution {
  readonly title: string;
  readonly text: string;
}

export const CAUTIONS: readonly Caution[] = [
  {
    title: 'Before you drill',
    text: 'Find cables and pipes first. Never drill a fire door, its frame or any other rated assembly: a hole can void its rating. Local building codes and licensed trades decide what may be done where; this report does not.',
  },
  {
    title: 'Electricity',
    text: 'Everything here is low voltage. Mains wiring belongs to a licensed electrician.',
  },
  {
    title: 'Light and eyes',
    text: 'Use optical emitters whose maker rates them eye-safe (IEC 62471), and never stare into one, least of all at a child’s height.',
  },
  {
    title: 'Sound and animals',
    text: 'Ultrasonic sensors work at about 40 kHz. People do not hear that; dogs and cats do.',
  },
  {
    title: 'People are not to be counted in secret',
    text: 'In a shared home or a workplace, a record of who passed when is personal data. Tell the people concerned, ask them, and keep little. A log that can be replayed shows when nobody is home.',
  },
  {
    title: 'Never for safety',
    text: 'Do not use such a count for evacuation, access control, capacity limits or anything a life may hang on. A count that drifts is not a roll-call.',
  },
];
