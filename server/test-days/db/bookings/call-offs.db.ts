import type { Transaction } from '../../../db/client.ts'

/** Marks a test day as called off. Its slots still say who was to grade, and no longer take their time. */
export async function markCalledOff(tx: Transaction, testDayId: string, at: Date, reason: string): Promise<void> {
  await tx.testDay.update({ where: { id: testDayId }, data: { calledOffAt: at, callOffReason: reason } })
  await tx.slot.updateMany({ where: { testDayId }, data: { calledOff: true } })
}
