package app.tankround.tanks;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface EquipmentRepository extends ListCrudRepository<Equipment, EquipmentId> {

    @Query("select * from equipment where code = :code")
    Optional<Equipment> findByCode(String code);

    @Query("select * from equipment where water_system_id = :systemId order by kind, code")
    List<Equipment> findBySystem(WaterSystemId systemId);
}
