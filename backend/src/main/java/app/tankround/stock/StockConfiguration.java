package app.tankround.stock;

import app.tankround.persistence.JdbcConverters;
import app.tankround.web.NavigationItem;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class StockConfiguration {

    @Bean
    JdbcConverters stockConverters() {
        return JdbcConverters.none()
                .withId(StockItemId.class, StockItemId::of, StockItemId::value)
                .withId(SupplierId.class, SupplierId::of, SupplierId::value)
                .withId(SupplierOrderId.class, SupplierOrderId::of, SupplierOrderId::value)
                .withId(StockLotId.class, StockLotId::of, StockLotId::value)
                .withId(StockMovementId.class, StockMovementId::of, StockMovementId::value);
    }

    @Bean
    NavigationItem stockNavigation() {
        return NavigationItem.forStaff(55, "stock", "/stock");
    }
}
