/* moist.h: inside the physics room: the density of air with water vapour in it. */
#ifndef PARE_PHYSICS_MOIST_H
#define PARE_PHYSICS_MOIST_H

/** CIPM-2007 with 400 parts per million of carbon dioxide.
 *
 * @param humidity  relative, 0 to 1
 * Accuracy: 2e-5 from 15 to 27 degC and 600 to 1100 hPa; outside that we keep to it without a proof, where
 * the vapour pressure is still good to 1 % between -20 and 50 degC and water is under 8 % of the air.
 * Source: Picard, Davis, Glaeser, Fujii, Metrologia 45 (2008) 149. */
#define PARE_MOIST_MOST 0.25 /* share of molecules: far beyond any weather */
/** The share of water among its molecules; over 1 where water would boil. */
double pare_moist_share(double kelvin, double pressure_pa, double humidity);
double pare_moist_kg_m3(double kelvin, double pressure_pa, double humidity);

#endif
