/** The one path through the method. The order is the order of the work. */
import type { Component } from 'vue'

type Lazy = () => Promise<{ default: Component }>

export interface Step { readonly name: StepName; readonly screen: Lazy }
export type StepName =
  | 'chassis' | 'loads' | 'squat' | 'curve' | 'airflow' | 'camera' | 'load' | 'decide' | 'track' | 'report'

export const STEPS: readonly Step[] = [
  { name: 'chassis', screen: () => import('../screens/chassis/ChassisScreen.vue') },
  { name: 'loads', screen: () => import('../screens/loads/LoadsScreen.vue') },
  { name: 'squat', screen: () => import('../screens/squat/SquatScreen.vue') },
  { name: 'curve', screen: () => import('../screens/curve/CurveScreen.vue') },
  { name: 'airflow', screen: () => import('../screens/airflow/AirflowScreen.vue') },
  { name: 'camera', screen: () => import('../screens/camera/CameraScreen.vue') },
  { name: 'load', screen: () => import('../screens/load/LoadScreen.vue') },
  { name: 'decide', screen: () => import('../screens/decide/DecideScreen.vue') },
  { name: 'track', screen: () => import('../screens/track/TrackScreen.vue') },
  { name: 'report', screen: () => import('../screens/report/ReportScreen.vue') },
]
