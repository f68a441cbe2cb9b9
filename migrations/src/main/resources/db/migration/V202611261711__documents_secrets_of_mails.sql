-- A mail may carry a secret that is made while it is sent; until then the body has a place for it only.
alter table outgoing_mail add column secret_about uuid;
