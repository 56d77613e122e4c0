"""The commands of `evenload`, each on the same engine as the screens."""
