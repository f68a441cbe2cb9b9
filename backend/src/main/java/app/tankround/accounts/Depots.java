package app.tankround.accounts;

import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface Depots extends ListCrudRepository<Depot, DepotId> {

    Optional<Depot> findByCode(String code);

    List<Depot> findAllByOrderByCodeAsc();
}
