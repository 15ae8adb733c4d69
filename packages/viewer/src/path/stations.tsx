/** The stations of the signal path, from the sticks to the blades: what each shows, and what can be set there. */
import type { ReactNode } from 'react'
import { machineIn } from '../state/pose.ts'
import { actingSticks } from '../state/store.ts'
import { LiveQuantity } from '../ui/live.tsx'
import { usePage } from '../ui/usePage.ts'
import { Field, SwitchField } from '../workbench/Field.tsx'
import { CyclicLimit, Layout, MixValue } from '../workbench/TransmitterFields.tsx'
import { CurveStation } from './CurveStation.tsx'
import { OutputStation } from './OutputStation.tsx'
import { RateStation } from './RateStation.tsx'
import { Limits, Weights } from './StationEditors.tsx'

const STICKS = ['collective', 'elevator', 'aileron', 'rudder'] as const

export interface Station {
  readonly id: string
  readonly name: string
  readonly show: ReactNode
  readonly edit?: ReactNode
  /** what of the document acts here, to mark a station that is not as recorded */
  readonly under: readonly string[]
}

export function useStations(): Station[] {
  const machine = usePage(machineIn)
  const { servos, tail, rotor, transmitter } = machine
  const lines = (rows: readonly (readonly [string, ReactNode])[]): ReactNode => (
    <dl className="lines">
      {rows.map(([word, value]) => (
        <div key={word}>
          <dt>{word}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
  return [
    {
      id: 'sticks',
      name: 'Sticks',
      under: [],
      show: lines(
        STICKS.filter((stick) => tail || stick !== 'rudder').map((stick) => [
          stick,
          <LiveQuantity key={stick} read={({ state }) => actingSticks(state)[stick] * 100} unit="%" digits={0} signed />,
        ]),
      ),
    },
    {
      id: 'curve',
      name: 'Mode and curve',
      under: ['/transmitter/flightModes'],
      show: <CurveStation />,
      edit: <CurveStation editable />,
    },
    {
      id: 'rates',
      name: 'Rates and expo',
      under: ['/transmitter/rates'],
      show: <RateStation />,
      edit: (
        <>
          {(['elevator', 'aileron', ...(tail ? (['rudder'] as const) : [])] as const).map((stick) => (
            <div key={stick}>
              <Field label={`${stick} rate`} path={`/transmitter/rates/${stick}/rate`} step={5} />
              <Field label={`${stick} expo`} path={`/transmitter/rates/${stick}/expo`} step={5} hint="plus softens the centre" />
            </div>
          ))}
        </>
      ),
    },
    {
      id: 'mix',
      name: 'Limit, mix, phase',
      under: ['/transmitter/mix'],
      show: lines([
        [
          'limit',
          transmitter.mix.cyclicLimit === undefined ? (
            <span key="limit" className="quantity">
              none
            </span>
          ) : (
            <LiveQuantity key="limit" read={({ state }) => machineIn(state).transmitter.mix.cyclicLimit} unit="%" digits={0} />
          ),
        ],
        ...(['collective', 'elevator', 'aileron'] as const).map(
          (stick) =>
            [
              stick,
              <LiveQuantity key={stick} read={({ state }) => machineIn(state).transmitter.mix[stick]} unit="%" signed />,
            ] as const,
        ),
        [
          'phase',
          <LiveQuantity key="phase" read={({ state }) => machineIn(state).transmitter.mix.phase} unit="°" signed digits={0} />,
        ],
      ]),
      edit: (
        <>
          <MixValue stick="collective" />
          <MixValue stick="elevator" />
          <MixValue stick="aileron" />
          <Layout />
          <Weights />
          <Field label="Phase" path="/transmitter/mix/phase" step={5} />
          <CyclicLimit />
        </>
      ),
    },
    {
      id: 'outputs',
      name: 'Outputs',
      under: ['/transmitter/outputs', '/transmitter/rudder'],
      show: <OutputStation tail={tail !== undefined} />,
      edit: (
        <>
          {transmitter.outputs.map((_, j) => (
            <div key={j}>
              <h3>Output {j + 1}</h3>
              <SwitchField label={`Output ${j + 1} reversed`} path={`/transmitter/outputs/${j}/reverse`} />
              <Field label={`Output ${j + 1}, sub-trim`} path={`/transmitter/outputs/${j}/subtrim`} step={10} by />
              <Field label={`Output ${j + 1}, travel below`} path={`/transmitter/outputs/${j}/travel/0`} step={5} />
              <Field label={`Output ${j + 1}, travel above`} path={`/transmitter/outputs/${j}/travel/1`} step={5} />
              <Limits j={j} />
            </div>
          ))}
        </>
      ),
    },
    ...(tail?.gyro
      ? [
          {
            id: 'gyro',
            name: 'Gyro',
            under: ['/tail/gyro'],
            show: lines([
              [
                'gain shown',
                <LiveQuantity
                  key="g"
                  read={({ state }) => machineIn(state).tail?.gyro?.gain}
                  unit=""
                  signed={tail.gyro.scale === 'signed'}
                  digits={0}
                />,
              ],
              [
                'nose turns',
                <LiveQuantity key="y" read={({ state }) => state.session.stand.yawRateDegPerS} unit="°/s" signed digits={0} />,
              ],
              ['limit', <LiveQuantity key="l" read={({ state }) => machineIn(state).tail?.gyro?.limit} unit="%" digits={0} />],
            ]),
            edit: (
              <>
                <SwitchField label="Gyro reversed" path="/tail/gyro/reverse" />
                <Field label="Gain, as shown" path="/tail/gyro/gain" step={5} />
                <Field label="Gyro's limit" path="/tail/gyro/limit" step={5} />
              </>
            ),
          },
        ]
      : []),
    {
      id: 'servos',
      name: 'Servos and horns',
      under: ['/servos/0/horn', '/servos/1/horn', '/servos/2/horn', '/servos/0/output', '/servos/1/output', '/servos/2/output'],
      show: lines([
        ...servos.map(
          (servo, i) =>
            [
              `${i + 1}, output ${servo.output}`,
              <LiveQuantity key={i} read={({ machine }) => machine.servos?.[i]?.horn} unit="°" signed />,
            ] as const,
        ),
        ...(tail
          ? [['tail', <LiveQuantity key="tail" read={({ machine }) => machine.tail?.horn} unit="°" signed />] as const]
          : []),
      ]),
    },
    ...(servos.some((servo) => servo.lever)
      ? [
          {
            id: 'levers',
            name: 'Levers',
            under: ['/servos/0/pushrod', '/servos/1/pushrod', '/servos/2/pushrod'],
            show: lines(
              servos.flatMap((servo, i) =>
                servo.lever
                  ? [
                      [
                        `lever ${i + 1}`,
                        <LiveQuantity key={i} read={({ machine }) => machine.servos?.[i]?.lever} unit="°" signed />,
                      ] as const,
                    ]
                  : [],
              ),
            ),
          },
        ]
      : []),
    {
      id: 'ring',
      name: 'Swashplate',
      under: ['/servos/0/link', '/servos/1/link', '/servos/2/link', '/swash'],
      show: lines([
        ['height', <LiveQuantity key="h" read={({ machine }) => machine.swash?.height} unit="mm" digits={2} />],
        ['fore-aft', <LiveQuantity key="f" read={({ machine }) => machine.swash?.foreAft} unit="°" signed digits={2} />],
        ['side', <LiveQuantity key="s" read={({ machine }) => machine.swash?.side} unit="°" signed digits={2} />],
      ]),
    },
    ...(machine.flybar
      ? [
          {
            id: 'flybar',
            name: 'Flybar',
            under: ['/flybar'],
            show: lines([
              ['washout', <LiveQuantity key="w" read={({ machine: now }) => now.flybar?.washout} unit="mm" digits={2} />],
              ['arms', <LiveQuantity key="a" read={({ machine: now }) => now.flybar?.washoutArms[0]} unit="°" signed />],
              ['paddles', <LiveQuantity key="p" read={({ machine: now }) => now.flybar?.paddle} unit="°" signed />],
              ['teeter', <LiveQuantity key="t" read={({ machine: now }) => now.flybar?.teeter} unit="°" signed />],
            ]),
          },
        ]
      : []),
    {
      id: 'blades',
      name: 'Blades',
      under: ['/rotor', '/tail/rod', '/tail/lever', '/tail/grip'],
      show: lines([
        ...Array.from(
          { length: Math.min(4, rotor.blades) },
          (_, k) =>
            [
              `blade ${k + 1}`,
              <LiveQuantity key={k} read={({ machine }) => machine.blades?.[k]?.pitch} unit="°" signed />,
            ] as const,
        ),
        ...(tail
          ? [['tail', <LiveQuantity key="tail" read={({ machine }) => machine.tail?.pitch} unit="°" signed />] as const]
          : []),
      ]),
    },
  ]
}
