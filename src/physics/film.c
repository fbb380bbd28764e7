/* film.c: which air is worked with (see film.h). */
#include "physics/film.h"

static pare_status out_of_range(const char *what, double value, const char *right, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s %g: %s would be right", what, value, right);
}

pare_status pare_film_check(double ambient_degc, double pressure_pa, double flow_m_s,
                            pare_error *err)
{
    if (!(ambient_degc >= -60 && ambient_degc <= 100))
        return out_of_range("air temperature in degC", ambient_degc, "-60 to 100", err);
    if (!(pressure_pa >= 1e4 && pressure_pa <= 2e5))
        return out_of_range("pressure in Pa", pressure_pa, "10000 to 200000", err);
    if (!(flow_m_s >= 0 && flow_m_s <= 150))
        return out_of_range("air flow in m/s", flow_m_s, "0 to 150", err);
    return PARE_OK;
}
