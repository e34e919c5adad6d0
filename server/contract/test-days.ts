import { z } from 'zod'
import { PlainDate, page, Text, Uuid } from './common.ts'

export const TestDayBody = z
  .strictObject({ on: PlainDate, unitId: Uuid, place: Text.default('') })
  .meta({ id: 'TestDayBody' })

export const TestDay = TestDayBody.safeExtend({ id: Uuid, sheets: z.int() }).meta({ id: 'TestDay' })
export const TestDayPage = page(TestDay)

export type TestDayBody = z.infer<typeof TestDayBody>
export type TestDay = z.infer<typeof TestDay>
