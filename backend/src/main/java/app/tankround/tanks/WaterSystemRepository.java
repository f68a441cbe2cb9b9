package app.tankround.tanks;

import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface WaterSystemRepository extends ListCrudRepository<WaterSystem, WaterSystemId> {

    @Query("select id from water_system where code = :code")
    Optional<WaterSystemId> findIdByCode(String code);
}
