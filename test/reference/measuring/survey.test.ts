import { describe, expect, it } from 'vitest';
import { SURVEY } from '../../../src/domain/measuring/survey-limits.js';

// ANSUR II (2012 US Army survey), smallest and largest in mm computed from the public data: women n = 1,986, men n = 4,082
// (ANSUR_II_FEMALE_Public.csv, ANSUR_II_MALE_Public.csv). Report: Gordon et al. 2014, 2012 Anthropometric Survey of U.S. Army
// Personnel: Methods and Summary Statistics, NATICK/TR-15/007 (tables not seen; computed from the public data).
const published: readonly (readonly [string, number, number, number, number])[] = [
  // column, women smallest, women largest, men smallest, men largest
  ['stature', 1409, 1829, 1491, 1993],
  ['headcircumference', 500, 635, 516, 633],
  ['neckcircumference', 275, 424, 311, 514],
  ['neckcircumferencebase', 302, 457, 350, 545],
  ['chestcircumference', 695, 1266, 774, 1469],
  ['waistcircumference', 611, 1334, 648, 1379],
  ['buttockcircumference', 798, 1341, 737, 1305],
  ['shouldercircumference', 852, 1225, 925, 1413],
  ['bicepscircumferenceflexed', 216, 435, 246, 490],
  ['forearmcircumferenceflexed', 200, 342, 233, 402],
  ['wristcircumference', 124, 183, 141, 216],
  ['handcircumference', 152, 214, 179, 248],
  ['thighcircumference', 448, 870, 412, 843],
  ['lowerthighcircumference', 302, 600, 290, 540],
  ['calfcircumference', 282, 482, 266, 523],
  ['anklecircumference', 170, 275, 156, 293],
  ['shoulderlength', 107, 175, 113, 185],
  ['biacromialbreadth', 283, 422, 337, 489],
  ['interscyei', 270, 481, 328, 562],
  ['sleevelengthspinewrist', 636, 930, 732, 1058],
  ['sleeveoutseam', 410, 662, 488, 709],
  ['waistbacklength', 345, 532, 383, 598],
  ['cervicaleheight', 1184, 1587, 1269, 1738],
  ['waistheightomphalion', 805, 1142, 876, 1245],
  ['crotchheight', 610, 947, 702, 1031],
  ['crotchlengthomphalion', 495, 779, 473, 799],
  ['verticaltrunkcircumferenceusa', 1342, 1828, 1361, 1991],
  ['kneeheightmidpatella', 346, 540, 397, 612],
  ['hipbreadth', 276, 473, 264, 452],
];

describe('the survey’s limits', () => {
  it.each(published)('%s: the wider of both sexes', (column, womenMin, womenMax, menMin, menMax) => {
    expect(SURVEY[column]).toEqual({
      smallest: Math.min(womenMin, menMin),
      largest: Math.max(womenMax, menMax),
    });
  });

  it('holds no column that is not checked here', () => {
    expect(Object.keys(SURVEY).sort()).toEqual(published.map(([column]) => column).sort());
  });
});
