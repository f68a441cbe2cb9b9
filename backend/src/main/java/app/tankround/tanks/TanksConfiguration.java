package app.tankround.tanks;

import app.tankround.persistence.JdbcConverters;
import app.tankround.units.MeasurementUnit;
import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class TanksConfiguration {

    @Bean
    JdbcConverters tanksConverters() {
        return JdbcConverters.none()
                .withId(WaterSystemId.class, WaterSystemId::of, WaterSystemId::value)
                .withId(TankId.class, TankId::of, TankId::value)
                .withId(EquipmentId.class, EquipmentId::of, EquipmentId::value)
                .withId(LivestockId.class, LivestockId::of, LivestockId::value)
                .with(
                        MeasurementUnit.class,
                        String.class,
                        code -> MeasurementUnit.ofCode(code).orElseThrow(),
                        MeasurementUnit::code);
    }

    @Bean
    NavigationItem systemsNavigation() {
        return NavigationItem.forStaff(30, "systems", "/systems");
    }

    @Bean
    NavigationItem benchNavigation() {
        return NavigationItem.forStaff(45, "bench", "/bench");
    }
}
