package app.tankround.tanks;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface LivestockRepository extends ListCrudRepository<Livestock, LivestockId> {

    @Query("select * from livestock where code = :code")
    Optional<Livestock> findByCode(String code);

    @Query("select * from livestock where water_system_id = :systemId order by common_name, code")
    List<Livestock> findBySystem(WaterSystemId systemId);
}
