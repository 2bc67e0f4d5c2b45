/** Fog on the glass and cold on the hands. Temperatures in °C. */

/** The coefficients of Magnus' formula by O. A. Alduchov and R. E. Eskridge, J. Appl. Meteor. 35 (1996) 601-609. */
const magnus = { factor: 17.625, celsius: 243.04, hectopascals: 6.1094 };

/** The pressure of saturated water vapour over water, hPa. */
export function saturationPressure(airCelsius: number): number {
  return magnus.hectopascals * Math.exp((magnus.factor * airCelsius) / (magnus.celsius + airCelsius));
}

/** The temperature at which glass fogs, from the air's temperature and relative humidity (a share, 0 to 1). */
export function dewPoint(airCelsius: number, humidityShare: number): number {
  const gamma = Math.log(humidityShare) + (magnus.factor * airCelsius) / (magnus.celsius + airCelsius);
  return (magnus.celsius * gamma) / (magnus.factor - gamma);
}

/** The relative humidity, a share, from the air's temperature and the dew point. */
export function relativeHumidity(airCelsius: number, dewPointCelsius: number): number {
  return saturationPressure(dewPointCelsius) / saturationPressure(airCelsius);
}

/**
 * Wind chill, °C, by the index of 2001 (Environment Canada, U.S. National Weather Service):
 * 13.12 + 0.6215·T − 11.37·V^0.16 + 0.3965·T·V^0.16 with V in km/h at 10 m. Null outside its range (above 10 °C, or wind
 * below 4.8 km/h), where there is no such figure.
 */
export function windChill(airCelsius: number, windMetresPerSecond: number): number | null {
  const kilometresPerHour = windMetresPerSecond * 3.6;
  if (airCelsius > 10 || kilometresPerHour < 4.8 - 1e-9) return null;
  const wind = kilometresPerHour ** 0.16;
  return 13.12 + 0.6215 * airCelsius - 11.37 * wind + 0.3965 * airCelsius * wind;
}
