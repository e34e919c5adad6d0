/** How something measured is drawn: as an angle, up from the ground, across, or on a scale of its own. */
export type GaugeKind = 'angle' | 'height' | 'distance' | 'scale'

const ANGLES = /^(°|deg|degrees?)$/i
const LENGTHS = /^(mm|cm|m|in|inch(es)?|ft|feet|foot|″|"|′|')$/i
const UPWARD = /height|above|off the ground|clearance/i

/** What kind of thing a gauge measures, by its unit and title; a unit nobody knows is a scale. */
export const gaugeKind = ({ unit, title }: { readonly unit: string; readonly title: string }): GaugeKind => {
  if (ANGLES.test(unit.trim())) return 'angle'
  if (!LENGTHS.test(unit.trim())) return 'scale'
  return UPWARD.test(title) ? 'height' : 'distance'
}
