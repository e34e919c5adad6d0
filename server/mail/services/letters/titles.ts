import type { Context } from '../../../context/context.ts'

/** Titles by code; the code itself where it is unknown. */
export interface Titles {
  readonly standard: (code: string) => string
  readonly certification: (code: string) => string
}

export async function readTitles({ catalogue, db }: Context): Promise<Titles> {
  const { standards, certifications } = await catalogue.current(db)
  return {
    standard: (code) => standards.get(code)?.at(-1)?.definition.title ?? code,
    certification: (code) => certifications.find((one) => one.code === code)?.title ?? code,
  }
}
