-- An adjustment of an instrument rests on the check that it was made by.
create table decision_check (
    decision_id      uuid        not null references decision (id),
    calibration_id   uuid        not null references calibration (id),
    primary key (decision_id, calibration_id)
);
create index decision_check_calibration_id on decision_check (calibration_id);
