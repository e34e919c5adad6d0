import type { CertificationStatus } from '../../server/contract/standards/certifications.ts'
import type { Client } from './client.ts'

/** A soldier's status in each certification that fits, as of a day; without one, today. */
export async function readStatuses(client: Client, soldierId: string, asOf?: string): Promise<CertificationStatus[]> {
  const path = `/api/soldiers/${soldierId}/status${asOf === undefined ? '' : `?asOf=${asOf}`}`
  return (await client.get<{ items: CertificationStatus[] }>(path)).items
}
