import { useQuery } from '@tanstack/react-query'
import { can, type Permission } from '#access/permissions.ts'
import { sessionQuery } from './accounts/session.ts'

/** Whether whoever is signed in has a permission. */
export const useMay = (permission: Permission): boolean =>
  can({ roles: useQuery(sessionQuery).data?.roles ?? [] }, permission)
