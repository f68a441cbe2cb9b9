-- What the doses that are agreed for the visit bring of a step anyway, in the unit of the plan.
alter table corrective_step
    add agreed_rise double precision not null default 0 check (agreed_rise >= 0);
