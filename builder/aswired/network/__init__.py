"""The electrical network of the car: resistances, what each load's current loses, how it behaves in a state."""
