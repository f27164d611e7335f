mod atmosphere;
mod fluid;
