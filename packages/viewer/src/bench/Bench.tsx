/** The bench: from making safe to the finished sheet, one thing at a time, under a thumb. */
import { type ReactNode, useLayoutEffect } from 'react'
import { CausesPanel } from './CausesPanel.tsx'
import { CautionsPanel } from './CautionsPanel.tsx'
import { LookPanel } from './LookPanel.tsx'
import { type BenchStage, isSafe, STAGE_NAMES, STAGES } from './model.ts'
import { ReadPanel } from './ReadPanel.tsx'
import { SheetPanel } from './SheetPanel.tsx'
import { TurnPanel } from './TurnPanel.tsx'
import { usePage } from '../ui/usePage.ts'
import { useBench, useSetBench } from './useBench.ts'
import './bench.css'
import './pictures.css'

const PANELS: Readonly<Record<BenchStage, () => ReactNode>> = {
  cautions: CautionsPanel,
  look: LookPanel,
  read: ReadPanel,
  causes: CausesPanel,
  turn: TurnPanel,
  sheet: SheetPanel,
}

export function Bench() {
  const bench = useBench()
  const set = useSetBench()
  const isShown = usePage(({ session }) => session.changes.length > 0)
  // Nothing powered and no reading before the cautions are confirmed.
  const safe = isSafe(bench, Date.now())
  const stage = safe ? bench.stage : 'cautions'
  const Panel = PANELS[stage]
  // Each thing begins at its own beginning, wherever the last one was scrolled to.
  // biome-ignore lint/correctness/useExhaustiveDependencies: they are what is waited for, not what is read
  useLayoutEffect(() => {
    document.getElementById('workspace')?.scrollTo(0, 0)
  }, [stage, bench.question, bench.place, bench.made, bench.plan])
  return (
    <div className="bench" data-stage={stage} data-shown={isShown || undefined}>
      <nav className="bench-stages" aria-label="Steps of the bench">
        <ol>
          {STAGES.map((name, i) => (
            <li key={name}>
              <button
                type="button"
                aria-current={name === stage ? 'step' : undefined}
                disabled={!safe && name !== 'cautions'}
                onClick={() => set({ stage: name }, `went to ${STAGE_NAMES[name].toLowerCase()}`)}
              >
                <span className="stage-number">{i + 1}</span>
                {STAGE_NAMES[name]}
              </button>
            </li>
          ))}
        </ol>
      </nav>
      <Panel />
    </div>
  )
}
