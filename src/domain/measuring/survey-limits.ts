/** The smallest and the largest of everyone surveyed, in whole millimetres. */
export type SurveyLimits = { readonly smallest: number; readonly largest: number };

const row = (smallest: number, largest: number): SurveyLimits => ({ smallest, largest });

/**
 * The smallest and the largest of 1,986 women and 4,082 men, the wider of both sexes, by column of the survey.
 *
 * They are fit adults of 17 to 58; clients differ more. They catch slips only (a wrong unit, a doubled digit), and only
 * beyond a wide margin; a child is never compared.
 *
 * @see ANSUR II, the 2012 US Army survey: computed from its public data. Report: Gordon et al. 2014, 2012 Anthropometric
 *   Survey of U.S. Army Personnel: Methods and Summary Statistics, NATICK/TR-15/007
 * @see test/reference/measuring/survey.test.ts
 */
export const SURVEY: Readonly<Record<string, SurveyLimits>> = {
  stature: row(1409, 1993),
  headcircumference: row(500, 635),
  neckcircumference: row(275, 514),
  neckcircumferencebase: row(302, 545),
  chestcircumference: row(695, 1469),
  waistcircumference: row(611, 1379),
  buttockcircumference: row(737, 1341),
  shouldercircumference: row(852, 1413),
  bicepscircumferenceflexed: row(216, 490),
  forearmcircumferenceflexed: row(200, 402),
  wristcircumference: row(124, 216),
  handcircumference: row(152, 248),
  thighcircumference: row(412, 870),
  lowerthighcircumference: row(290, 600),
  calfcircumference: row(266, 523),
  anklecircumference: row(156, 293),
  shoulderlength: row(107, 185),
  biacromialbreadth: row(283, 489),
  interscyei: row(270, 562),
  sleevelengthspinewrist: row(636, 1058),
  sleeveoutseam: row(410, 709),
  waistbacklength: row(345, 598),
  cervicaleheight: row(1184, 1738),
  waistheightomphalion: row(805, 1245),
  crotchheight: row(610, 1031),
  crotchlengthomphalion: row(473, 799),
  verticaltrunkcircumferenceusa: row(1342, 1991),
  kneeheightmidpatella: row(346, 612),
  hipbreadth: row(264, 473),
};
