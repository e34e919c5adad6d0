/** Everyone named on a sheet. */
export interface NamedOnSheet {
  readonly candidateId: string
  readonly sponsorId: string | null
  readonly graderId: string
  readonly acknowledged: readonly { readonly soldierId: string }[]
}

/** Ids of everyone named on a sheet. */
export const namedOn = ({ candidateId, sponsorId, graderId, acknowledged }: NamedOnSheet): string[] => [
  candidateId,
  graderId,
  ...(sponsorId ? [sponsorId] : []),
  ...acknowledged.map(({ soldierId }) => soldierId),
]

/** A sheet with everyone under the id they have now. In: whom ids lead to that were given up in a merge. */
export function presentPeople<Body extends NamedOnSheet>(body: Body, present: ReadonlyMap<string, string>): Body {
  if (present.size === 0) return body
  const now = (id: string) => present.get(id) ?? id
  return {
    ...body,
    candidateId: now(body.candidateId),
    sponsorId: body.sponsorId && now(body.sponsorId),
    graderId: now(body.graderId),
    acknowledged: body.acknowledged.map((one) => ({ ...one, soldierId: now(one.soldierId) })),
  }
}
