import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'

const VOID_KINDS = {
  weather: 'weather',
  injury: 'injury',
  equipment: 'equipment',
  interrupted: 'interrupted',
  other: 'other reason',
}

/** How a sheet ended, in a few words: "GO", "NO-GO, stopped", "Void: weather", "GO, outcome only". */
export const formatOutcome = (
  body: Pick<SheetBody, 'void'>,
  result: Pick<SheetResult, 'ending' | 'outcome'>,
): string => {
  switch (result.ending) {
    case 'void':
      return body.void ? `Void: ${VOID_KINDS[body.void.kind]}` : 'Void'
    case 'stopped':
      return 'NO-GO, stopped'
    case 'recorded':
      return `${result.outcome}, outcome only`
    case 'unfinished':
      return 'Unfinished'
    case 'completed':
      return result.outcome ?? ''
  }
}

/** The major measures that are NO-GO, and when they fell: "Ceremonial composure, after call 22". */
export const formatMajorsFailed = (body: Pick<SheetBody, 'majors'>, standard: Standard | undefined): string[] =>
  body.majors
    .filter(({ mark }) => mark === 'NO-GO')
    .map(({ code, atCall }) => {
      const title = standard?.majors.find((major) => major.code === code)?.title ?? code
      return atCall === 0 ? `${title}, before the first call` : `${title}, after call ${atCall}`
    })

/** The score of a sheet: "10 of 13 GO, 11 needed"; '' where it has none. */
export const formatScore = (result: Pick<SheetResult, 'minimum' | 'go' | 'minors'>): string =>
  result.minimum === null ? '' : `${result.go} of ${result.minors.length} GO, ${result.minimum} needed`
