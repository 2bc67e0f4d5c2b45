/**
 * A plan around one shot, for the tests of single rules: an invented reservoir in the north of England. On 2027-03-20 the
 * sun rises at 06:13 and sets at 18:26 there.
 */
export function planWithShot(shot: string, { spot = '', forecast = '' } = {}): string {
  return `plan: A day
date: 2027-03-20
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
${forecast}spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: 05:00
${spot}    shots:
      - id: picture
${shot}`;
}
