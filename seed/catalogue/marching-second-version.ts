import type { StandardBody } from '../../server/contract/standards/standards.ts'

/**
 * The marching manual as the unit changed it once it had a year of readings: more room in double time, where the band
 * failed steps nobody could tell from good ones, and the course marked out. Earlier GOs go on counting.
 * In: the first version, the day the second is in force from.
 */
export function marchingSecondVersion(first: StandardBody, effectiveFrom: string): StandardBody {
  return {
    ...first,
    version: 2,
    conditions: [...first.conditions, 'Lanes marked every thirty inches where steps are measured'],
    gauges: first.gauges.map((gauge) =>
      gauge.code === 'double-cadence' ? { ...gauge, min: '172', max: '188' } : gauge,
    ),
    effectiveFrom,
    equivalentToPrevious: true,
  }
}
