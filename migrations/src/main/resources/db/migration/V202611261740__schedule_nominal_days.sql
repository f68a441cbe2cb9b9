-- The day that the rhythm gives is nominal: within the tolerance a visit moves to another day where nobody can come, and
-- otherwise stays and says why. Visits that were made before are on their nominal day.
alter table agreement
    add column tolerance_days integer not null default 0 check (tolerance_days between 0 and 28);
alter table agreement
    alter column tolerance_days drop default;

alter table planned_visit
    add column nominal_on       date,
    add column tolerance_days   integer not null default 0 check (tolerance_days between 0 and 28),
    -- why nobody can come on the nominal day
    add column hindrance        text check (hindrance in ('WEEKDAY', 'CLOSED', 'HOLIDAY')),
    add column hindrance_detail text;
update planned_visit set nominal_on = due_on;
alter table planned_visit
    alter column nominal_on set not null,
    alter column tolerance_days drop default,
    add check (abs(due_on - nominal_on) <= tolerance_days),
    add check (due_on = nominal_on or hindrance is not null),
    drop constraint planned_visit_agreement_id_due_on_key,
    add constraint planned_visit_agreement_id_nominal_on_key unique (agreement_id, nominal_on);
