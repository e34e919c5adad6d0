import { minimumGo } from '../scoring/minimum.ts'
import { type JudgedDefinition, measureEras } from '../standards/measure-eras.ts'

/** A version of a standard, as far as a forecast is concerned. */
export interface TestedVersion {
  readonly version: number
  readonly definition: JudgedDefinition & {
    readonly rule: { readonly trials: number; readonly needed: number; readonly percent: string | number }
  }
}

/** Where the measures of a version stand in the model. */
export interface VersionPlaces {
  readonly codes: readonly string[]
  readonly measures: readonly number[]
  readonly majors: readonly string[]
  readonly trials: number
  readonly needed: number
  readonly minimum: number
}

/** The measures of a standard over all its versions. */
export interface MeasureLayout {
  /** By place of a measure: which strength it draws on. Measures of one code share one. */
  readonly strengthOf: readonly number[]
  readonly ofVersion: ReadonlyMap<number, VersionPlaces>
}

/**
 * Gives every measure a place: one for all versions that define it alike, so that its ease is pooled over them. A version
 * that comes later adds places behind those there are.
 */
export function measureLayout(versions: readonly TestedVersion[]): MeasureLayout {
  const eras = measureEras(versions)
  const places = new Map<object, number>()
  const strengths = new Map<string, number>()
  const strengthOf: number[] = []
  const inOrder = [...versions].sort((a, b) => a.version - b.version)
  const ofVersion = inOrder.map(({ version, definition }): [number, VersionPlaces] => {
    const codes = definition.minors.map(({ code }) => code)
    const measures = codes.map((code) => {
      const era = eras.get(version)!.get(code)!
      if (!strengths.has(code)) strengths.set(code, strengths.size)
      if (!places.has(era)) places.set(era, strengthOf.push(strengths.get(code)!) - 1)
      return places.get(era)!
    })
    const { trials, needed, percent } = definition.rule
    const majors = definition.majors.map(({ code }) => code)
    return [version, { codes, measures, majors, trials, needed, minimum: minimumGo(String(percent), codes.length) }]
  })
  return { strengthOf, ofVersion: new Map(ofVersion) }
}
