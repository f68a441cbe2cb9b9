package app.tankround.instruments;

import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface Standards extends ListCrudRepository<Standard, StandardId> {

    Optional<Standard> findByCode(String code);

    List<Standard> findAllByOrderByCode();
}
