/**
 * The page's workspaces. Each is a place for one kind of work; add one here and it has its tab, on the desktop at the
 * right and on a phone under the thumb. Those at the left and along the bottom stand open where there is room.
 */
import { Activity, ClipboardList, Gamepad2, Waypoints, Wrench } from 'lucide-react'
import type { ComponentType, ReactNode } from 'react'
import { BenchDoor } from '../bench/BenchDoor.tsx'
import { SignalPath } from '../path/SignalPath.tsx'
import { Readings } from '../plots/Readings.tsx'
import { Hands } from '../sticks/Hands.tsx'
import { MisSet } from '../workbench/MisSet.tsx'

export interface Workspace {
  readonly id: string
  readonly name: string
  /** where it stands on a wide page: always open at the left or along the bottom, or a tab at the right */
  readonly place: 'left' | 'right' | 'bottom'
  readonly icon: ReactNode
  readonly Panel: ComponentType
}

export const WORKSPACES: readonly Workspace[] = [
  { id: 'fly', name: 'Sticks', place: 'left', icon: <Gamepad2 size={22} aria-hidden />, Panel: Hands },
  { id: 'mis-set', name: 'Mis-set', place: 'right', icon: <Wrench size={22} aria-hidden />, Panel: MisSet },
  { id: 'read', name: 'Figures', place: 'right', icon: <Activity size={22} aria-hidden />, Panel: Readings },
  { id: 'bench', name: 'Bench', place: 'right', icon: <ClipboardList size={22} aria-hidden />, Panel: BenchDoor },
  { id: 'path', name: 'Path', place: 'bottom', icon: <Waypoints size={22} aria-hidden />, Panel: SignalPath },
]
