package app.tankround.tanks;

import org.springframework.data.repository.ListCrudRepository;

interface TargetPresetRepository extends ListCrudRepository<TargetPreset, SystemKind> {}
