-- A batch of purified water is measured before it is let out as well: what was found is kept also where it is not as meant.
alter table water_batch_step add column dissolved_mg_l double precision check (dissolved_mg_l >= 0);
alter table water_batch_step drop constraint water_batch_step_check1;
alter table water_batch_step add check ((kind = 'MEASURED') = (num_nonnulls(salinity, dissolved_mg_l) = 1));
alter table water_batch_step add check (kind = 'MEASURED' or num_nonnulls(salinity, dissolved_mg_l) = 0);
