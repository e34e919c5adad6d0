import { StandardBody } from '../../server/contract/standards/standards.ts'
import { readBeginning } from '../../server/standards/services/beginnings.ts'

/** A standard that the product comes with, checked as the API checks it: the demo unit took them as its own. */
export const readStandard = (code: string): StandardBody => StandardBody.parse(readBeginning(code))
