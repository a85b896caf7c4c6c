"""The electrical network of the car: resistances, what each load's current loses, operating states, opened grounds."""
