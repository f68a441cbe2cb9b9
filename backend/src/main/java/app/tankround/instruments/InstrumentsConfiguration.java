package app.tankround.instruments;

import app.tankround.persistence.JdbcConverters;
import app.tankround.units.MeasurementUnit;
import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class InstrumentsConfiguration {

    @Bean
    JdbcConverters instrumentsConverters() {
        return JdbcConverters.none()
                .withId(InstrumentId.class, InstrumentId::of, InstrumentId::value)
                .withId(StandardId.class, StandardId::of, StandardId::value)
                .with(
                        MeasurementUnit.class,
                        String.class,
                        code -> MeasurementUnit.ofCode(code).orElseThrow(),
                        MeasurementUnit::code);
    }

    @Bean
    NavigationItem instrumentsNavigation() {
        return NavigationItem.forStaff(40, "instruments", "/instruments");
    }
}
