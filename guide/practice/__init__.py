"""The simulated chuck: somewhere to practise without a machine, and a population to study."""
