/** One page on how to measure. Care comes first. */
export function benchProtocol(): string {
  return PAGE;
}

const PAGE = `# Measuring a ranger at a table

An hour with a tape measure tells more of your own sensor than any data sheet: its curve, its noise, its strays.

## Care

- **Eyes.** Use optical emitters whose maker rates them eye-safe (IEC 62471). Never stare into one, infrared ones that
  look dark least of all. Point the bench at a wall, not at the height of somebody's face.
- **Ears of animals.** 40 kHz is silent to people; cats and dogs hear it. Send them out, or measure elsewhere.
- **Low voltage only.** A bench supply, a battery or a computer's port. Nothing here touches the mains.

## What you need

The ranger and its controller as they will be in the door frame, same cable, same supply. A tape measure, a flat board
at least 40 cm wide as a target, a table or floor with nothing within a metre either side of the line of sight.

- *Ultrasonic:* a hard, smooth board, square to the sensor; turn it until the echo is strongest. A thermometer in the air
  beside it: say \`--temperature-c\`. Away from fans, radiators and open windows.
- *Infrared, triangulation or time of flight:* a matt board, white or light grey. No sun on it; lamps as they will be.

## How

1. **Warm up.** Supply on, readings running, for ten minutes.
2. **Mark distances** from the front face of the sensor: at least eight, from the nearest it is meant for to the furthest,
   closer together near by. For example 100, 150, 200, 300, 400, 550, 700, 800 mm. Measure each to a millimetre: an error
   of the tape is an error of the curve.
   Triangulation: none nearer than the distance where the voltage is highest.
3. **Thirty readings at each distance** or more, after throwing five away. Fewer tell neither noise nor strays. Keep
   everything: what looks wrong is a stray, and its share is one of the results.
4. **Step back while it reads.** You are a target too.
5. **Shuffle the distances** rather than going outwards, so that slow drift doesn't pass for curve.
6. **At the end do the first distance again**, under the same true distance. Should it differ, warm up longer.

## The file

One line of names, then one row a reading. An empty reading, \`none\` or 0 means that no echo came:

    true_mm,echo_us
    300,1751
    300,1749
    300,

First column \`true_m\`, \`true_cm\` or \`true_mm\`; second \`reading_m\`, \`reading_mm\`, \`echo_us\` (there and back), \`adc_counts\` or
\`volts\`. Then:

    jambeam fit readings.csv --kind ultrasonic-ranger --temperature-c 21 --out my-ranger.yaml
`;
