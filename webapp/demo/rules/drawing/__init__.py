"""Site sketches as plain shapes: pen, lettering, camera and the things a builder photographs."""
