import { listForm, nameForm, temperatureForm } from '../forms.ts'
import { kind } from '../kind.ts'

/** A place whose temperature thermal devices sense, with the loads that warm it. */
export const zoneKind = kind({
  word: 'zone',
  title: 'Zone',
  example: 'zone box warms with H1 airflow duct normal 110 C blocked 200 C',
  named: 'own',
  round: 3,
  clauses: {
    warms: listForm('with', 'heater'),
    airflow: nameForm('airflow'),
    normal: temperatureForm,
    blocked: temperatureForm,
  },
  children: {},
  read(line, to) {
    const { warms, airflow, normal, blocked } = line.clauses
    const flow = airflow && to.findName('airflow', airflow)
    to.zone({
      name: line.name,
      warmsWith: (warms ?? []).flatMap((part) => to.findWorking(part)),
      ...(flow !== undefined && { airflow: flow }),
      ...(normal && { normal }),
      ...(blocked && { blocked }),
    })
  },
})
