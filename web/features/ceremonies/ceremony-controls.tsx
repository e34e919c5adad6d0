import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { useMay } from '../../api/use-may.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'

/** The ways on from a ceremony, as far as one may go. */
export function CeremonyControls({
  id,
  may,
  onLeave,
}: {
  id: string
  may: CeremonyDetail['may']
  onLeave: () => void
}) {
  const mayPlan = useMay('plan-ceremonies')
  return (
    <>
      <Link href={addressTo(paths.roster, { id })} className="button button-main">
        Roster to print
      </Link>
      {may === 'plan' && (
        <Link href={addressTo(paths.ceremonyEdit, { id })} className="button">
          Change the plan
        </Link>
      )}
      {mayPlan && (
        <Link href={addressTo(paths.newCeremony, { copy: id })} className="button">
          Copy as a new one
        </Link>
      )}
      {may === 'plan' && <Button onClick={onLeave}>Call it off</Button>}
    </>
  )
}
