import { z } from 'zod'

/** Which versions a figure pools: those in which the measure is defined alike. */
export const DefinedIn = {
  versions: z.array(z.int()).describe('Versions of the standard whose tests are in this figure, in order.'),
  current: z
    .boolean()
    .describe('False: a later version in this answer defines the measure otherwise and has a figure of its own.'),
}
