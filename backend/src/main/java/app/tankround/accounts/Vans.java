package app.tankround.accounts;

import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface Vans extends ListCrudRepository<Van, VanId> {

    Optional<Van> findByCode(String code);

    List<Van> findAllByOrderByCodeAsc();
}
