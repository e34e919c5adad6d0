import { isOutOfSpace } from '../../db/database-errors.ts'
import { diskFull } from '../../files/receive-file.ts'

/** Does work with the database; where its disk is full says so in words. */
export async function orDiskFull<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work()
  } catch (error) {
    throw isOutOfSpace(error) ? diskFull() : error
  }
}
