import { z } from 'zod'

/** The one verdict on somebody, the false discovery rate held at 5 % over everybody asked. */
export const Differs = z
  .enum(['above', 'below', 'no', 'few'])
  .describe('By more than chance allows; few: too little to ask.')
