package app.tankround.instruments;

import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface Instruments extends ListCrudRepository<Instrument, InstrumentId> {

    Optional<Instrument> findByCode(String code);

    List<Instrument> findAllByOrderByCode();
}
