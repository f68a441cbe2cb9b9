package app.tankround.tanks;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface Tanks extends ListCrudRepository<Tank, TankId> {

    @Query("select * from tank where code = :code")
    Optional<Tank> findByCode(String code);

    @Query("select * from tank where water_system_id = :systemId order by name, code")
    List<Tank> findBySystem(WaterSystemId systemId);
}
