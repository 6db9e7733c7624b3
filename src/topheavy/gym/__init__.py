"""What a gym owns, where it lifts and who lifts there, as frozen values."""
