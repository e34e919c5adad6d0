import { readFileSync } from 'node:fs'
import { StandardBody } from '../../server/contract/standards/standards.ts'

/** A standard of the catalogue by its code, checked as the API checks it. */
export const readStandard = (code: string): StandardBody =>
  StandardBody.parse(JSON.parse(readFileSync(new URL(`${code}.json`, import.meta.url), 'utf8')))
