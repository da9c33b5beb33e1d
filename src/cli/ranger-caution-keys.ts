/** The key of a scenario that each caution about rangers is about. */
import type { RangerCaution } from '../simulate/ranger-caution-types.js';

/** A key within a part of the design; of a beam also its key in the short form of a pair. */
export interface CautionKey {
  readonly of: 'door' | 'controller' | 'sensor' | 'beam';
  readonly beam: string;
  readonly key: readonly string[];
}

export function rangerCautionKey(caution: RangerCaution): CautionKey {
  const beam = 'beams' in caution ? (caution.beams[0] ?? '') : 'beam' in caution ? caution.beam : '';
  switch (caution.code) {
    case 'scan_stretched':
    case 'scan_slow':
      return { of: 'controller', beam, key: ['cycle_ms'] };
    case 'cones_overlap':
    case 'wrong_order':
      return { of: 'beam', beam: caution.second, key: ['at_m', 'spacing_m'] };
    case 'no_background':
      return caution.background === 'beyond'
        ? { of: 'sensor', beam, key: ['range_m'] }
        : { of: 'door', beam, key: ['width_m'] };
    case 'idle_broken':
      return {
        of: 'sensor',
        beam,
        key: ['switching', caution.reads_m === null ? 'no_echo' : pointKey(caution.learnt)],
      };
    case 'never_broken':
    case 'margin_noise':
      return { of: 'sensor', beam, key: ['switching', pointKey(caution.learnt)] };
    case 'temperature':
      return { of: 'sensor', beam, key: ['assumed_temperature_c'] };
    case 'heard':
      return caution.heard.when === 'other controller'
        ? { of: 'beam', beam: ownBeam(caution.heard.listener), key: ['sensor'] }
        : { of: 'controller', beam, key: ['turns'] };
    case 'flicker':
      return { of: 'sensor', beam, key: ['switching', 'off_delay_ms'] };
    case 'near_gap':
    case 'echo_lost':
      return { of: 'beam', beam, key: ['sensor'] };
    case 'unseen':
      return { of: 'beam', beam, key: ['height_m'] };
  }
}

function pointKey(learnt: boolean): string {
  return learnt ? 'margin_m' : 'nearer_than_m';
}

/** The beam of DOOR.BEAM. */
function ownBeam(name: string): string {
  return name.slice(name.indexOf('.') + 1);
}
