import { useQuery } from '@tanstack/react-query'
import { sessionQuery } from './accounts/session.ts'
import { type Errand, may } from './may.ts'

/** Whether whoever is signed in is let in on an errand. */
export const useMay = (errand: Errand): boolean => may(useQuery(sessionQuery).data?.roles ?? [], errand)
