import { hashToken } from '../../accounts/services/token.ts'

/** The hash that a code is kept as: it confirms the address it was sent to, and no other that is given meanwhile. */
export const hashCode = (code: string, address: string): Buffer => hashToken(`${code} ${address}`)
