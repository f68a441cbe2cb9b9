package app.tankround.chemistry;

import edu.colorado.cires.mgg.teosgsw.TeosGsw10;

/** The TEOS-10 reference library (GSW-C 3.06.16), beside which our own formulas are put. */
final class Gsw {

    /** Reference-composition salinity in g/kg per unit of practical salinity (Millero et al. 2008). */
    private static final double GRAMS_PER_KILOGRAM = 35.16504 / 35;

    private static final TeosGsw10 LIBRARY = TeosGsw10.INSTANCE;

    private Gsw() {}

    static double density(double practicalSalinity, double celsius) {
        return LIBRARY.gsw_rho_t_exact(practicalSalinity * GRAMS_PER_KILOGRAM, celsius, 0);
    }

    static double conductivity(double practicalSalinity, double celsius) {
        return LIBRARY.gsw_c_from_sp(practicalSalinity, celsius, 0);
    }

    static double salinity(double millisiemensPerCentimetre, double celsius) {
        return LIBRARY.gsw_sp_from_c(millisiemensPerCentimetre, celsius, 0);
    }
}
