import './elkScope.ts'
import ELK from 'elkjs/lib/elk.bundled.js'
import { createDrawer, type DrawerAnswer, type DrawerJob } from './drawer.ts'
import { serve } from './serve.ts'

const elk = new ELK()
serve<DrawerJob, DrawerAnswer>(createDrawer((graph) => elk.layout(graph)))
