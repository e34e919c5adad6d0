import type { SheetBody } from '#contract/sheets/sheets.ts'

/** Somebody on a sheet, as the device knows them. A walk-in has no id until the server was asked for it. */
export interface GradedPerson {
  readonly id: string | null
  readonly rosterNumber: string
  readonly grade: string
  readonly familyName: string
  readonly givenName: string
}

/** What is settled before the first call. */
export interface SheetHead {
  readonly purpose: SheetBody['purpose']
  readonly standard: string
  readonly standardVersion: number
  readonly arm: string | null
  readonly candidate: GradedPerson
  readonly sponsor: { readonly id: string; readonly name: string } | null
  readonly graderId: string
  readonly testDayId: string | null
  readonly secondOf: string | null
  readonly conditions: SheetBody['conditions']
}
