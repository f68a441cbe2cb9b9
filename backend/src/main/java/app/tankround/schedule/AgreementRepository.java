package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface AgreementRepository extends ListCrudRepository<Agreement, AgreementId> {

    List<Agreement> findByWaterSystemIdOrderByCode(WaterSystemId waterSystemId);

    List<Agreement> findAllByOrderByCode();

    Optional<Agreement> findByCode(String code);
}
