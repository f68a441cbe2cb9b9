package app.tankround.accounts;

import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface WaterContainers extends ListCrudRepository<WaterContainer, WaterContainerId> {

    Optional<WaterContainer> findByNumberIgnoreCase(String number);
}
