import { hashToken } from '../token.ts'

/** What the record keeps of a device's token, other for each account: a computer of the orderly room is known to many. */
export const deviceHash = (deviceToken: string, accountId: string): Buffer => hashToken(`${deviceToken} ${accountId}`)
