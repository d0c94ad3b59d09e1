/* fcl-bridge.cpp: see fcl-bridge.h. */
#include "fcl-bridge.h"

#include <algorithm>
#include <memory>
#include <vector>

#include <fcl/config.h>
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/detail/primitive_shape_algorithm/triangle_distance.h>
#include <fcl/narrowphase/distance.h>

struct FclMesh
{
  std::shared_ptr<fcl::BVHModel<fcl::OBBRSSd>> model;
};

const char *
fcl_bridge_version (void)
{
  return FCL_VERSION;
}

static fcl::Vector3d
vector (const double *p)
{
  return fcl::Vector3d (p[0], p[1], p[2]);
}

double
fcl_bridge_triangle_distance (const double a[9], const double b[9])
{
  const fcl::Vector3d s[3] = { vector (a), vector (a + 3), vector (a + 6) };
  const fcl::Vector3d t[3] = { vector (b), vector (b + 3), vector (b + 6) };
  fcl::Vector3d p, q;
  return fcl::detail::TriangleDistance<double>::triDistance (s, t, p, q);
}

FclMesh *
fcl_bridge_mesh_new (const double *vertices, unsigned n_vertices, const unsigned *triangles,
                     unsigned n_triangles)
{
  std::vector<fcl::Vector3d> points;
  std::vector<fcl::Triangle> corners;
  for (unsigned i = 0; i < n_vertices; i++)
    points.push_back (vector (vertices + 3 * i));
  for (unsigned i = 0; i < n_triangles; i++)
    corners.emplace_back (triangles[3 * i], triangles[3 * i + 1], triangles[3 * i + 2]);
  auto model = std::make_shared<fcl::BVHModel<fcl::OBBRSSd>> ();
  model->beginModel ();
  model->addSubModel (points, corners);
  model->endModel ();
  return new FclMesh{ model };
}

void
fcl_bridge_mesh_free (FclMesh *mesh)
{
  delete mesh;
}

static fcl::Transform3d
transform (const FclPose *pose)
{
  fcl::Transform3d t = fcl::Transform3d::Identity ();
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      t.linear () (i, j) = pose->turn[3 * i + j];
  t.translation () = vector (pose->position);
  return t;
}

double
fcl_bridge_mesh_distance (FclMesh *a, const FclPose *pose_a, FclMesh *b, const FclPose *pose_b)
{
  fcl::CollisionObjectd object_a (a->model, transform (pose_a));
  fcl::CollisionObjectd object_b (b->model, transform (pose_b));
  fcl::DistanceRequestd request (false, false);
  fcl::DistanceResultd result;
  fcl::distance (&object_a, &object_b, request, result);
  return std::max (0.0, result.min_distance);
}
