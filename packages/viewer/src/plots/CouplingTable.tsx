/** Cross-axis coupling in percent, of the swashplate and of the blades: the machine as it is, and beside it the record. */
import type { CrossCoupling } from '@swashtrue/mixing'
import { written } from '../ui/live.tsx'
import { useAnswers } from '../ui/useAnswers.ts'

const ROWS: readonly { key: keyof CrossCoupling; says: string }[] = [
  { key: 'elevator', says: 'Elevator also rolls' },
  { key: 'aileron', says: 'Aileron also tips' },
  { key: 'collectiveForeAft', says: 'Collective tips fore and aft' },
  { key: 'collectiveSide', says: 'Collective rolls' },
]

export function CouplingTable() {
  const latest = useAnswers((state) => state.latest)
  const machine = latest && 'cross' in latest.machine ? latest.machine : undefined
  const record = latest && 'cross' in latest.record ? latest.record : undefined
  const cell = (value: number | null | undefined): string =>
    value === undefined || value === null ? '–' : `${written(value, 1, true)} %`
  return (
    <table className="coupling">
      <caption>At mid-stick, of the motion that the stick is meant for</caption>
      <thead>
        <tr>
          <th scope="col">Coupling</th>
          <th scope="col">swashplate</th>
          <th scope="col">blades</th>
          <th scope="col" className="as-recorded">
            blades, recorded
          </th>
        </tr>
      </thead>
      <tbody>
        {ROWS.map(({ key, says }) => (
          <tr key={key}>
            <th scope="row">{says}</th>
            <td>{cell(machine?.cross.swash[key])}</td>
            <td>{cell(machine?.cross.blade[key])}</td>
            <td className="as-recorded">{cell(record?.cross.blade[key])}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
