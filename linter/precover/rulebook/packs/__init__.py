"""Packs that change other packs: the editions of the model code, and what an authority adopts on top of one."""
