/** What the guesthouse's doors are measured with. */
export const HOUSE_SENSORS = [
  'light-barrier',
  'time-of-flight-ranger',
  'triangulation-ranger',
  'ultrasonic-ranger',
] as const;
