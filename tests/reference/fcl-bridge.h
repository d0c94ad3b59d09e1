/* fcl-bridge.h: the Flexible Collision Library for tests in C. */
#pragma once

#ifdef __cplusplus
extern "C"
{
#endif

  typedef struct FclMesh FclMesh;

  /* "0.7.0" or the like. */
  const char *fcl_bridge_version (void);

  /* The distance of two triangles of nine coordinates each. */
  double fcl_bridge_triangle_distance (const double a[9], const double b[9]);

  FclMesh *fcl_bridge_mesh_new (const double *vertices, unsigned n_vertices,
                                const unsigned *triangles, unsigned n_triangles);
  void fcl_bridge_mesh_free (FclMesh *mesh);
  typedef struct
  {
    double turn[9]; /* by rows */
    double position[3];
  } FclPose;

  /* 0 where the surfaces meet. */
  double
  fcl_bridge_mesh_distance (FclMesh *a, const FclPose *pose_a, FclMesh *b, const FclPose *pose_b);

#ifdef __cplusplus
}
#endif
