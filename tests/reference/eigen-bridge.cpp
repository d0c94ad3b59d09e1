/* eigen-bridge.cpp: see eigen-bridge.h.
 *
 * The hang is found with no thought of where the hook must be: the pose has six freedoms, the
 * energy is that of weight and springs, E = z + Σ ½ k max (0, |leg| − length)², in 80-bit floating
 * point. Steps are Newton's with the absolute values of the curvatures (so that they go down), and
 * are halved until the energy falls. The stiffness grows in stages. At stiffness k the height, less
 * its stretch, is off by the order of 1/k², the tensions and the attitude by 1/k: two stiffnesses
 * give what they tend to. */
#include "eigen-bridge.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

/* What is solved here is small: instructions for long vectors would only take long to compile. */
#define EIGEN_DONT_VECTORIZE
#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <Eigen/QR>

typedef long double Real;
typedef Eigen::Matrix<Real, 3, 1> Vector;
typedef Eigen::Matrix<Real, 3, 3> Matrix;
typedef Eigen::Matrix<Real, 6, 1> Freedoms;
typedef Eigen::Matrix<Real, 6, 6> Curvature;

#define TEXT(x) #x
#define VERSION(a, b, c) TEXT (a) "." TEXT (b) "." TEXT (c)

const char *
eigen_bridge_version (void)
{
  return VERSION (EIGEN_WORLD_VERSION, EIGEN_MAJOR_VERSION, EIGEN_MINOR_VERSION);
}

/* In one place, since it takes long to compile. */
static Eigen::VectorXd
solve (const Eigen::MatrixXd &m, const Eigen::VectorXd &right)
{
  return m.completeOrthogonalDecomposition ().solve (right);
}

double
eigen_bridge_solve (const double *a, unsigned rows, unsigned columns, const double *b, double *x)
{
  Eigen::MatrixXd m (rows, columns);
  for (unsigned i = 0; i < rows * columns; i++)
    m (i / columns, i % columns) = a[i];
  Eigen::Map<const Eigen::VectorXd> right (b, rows);
  Eigen::VectorXd left = solve (m, right);
  std::copy_n (left.data (), columns, x);
  return (m * left - right).norm ();
}

int
eigen_bridge_solve_one_way (const double *a, unsigned columns, const double *b, double *x)
{
  double best = std::numeric_limits<double>::infinity ();
  const Eigen::VectorXd right = Eigen::Map<const Eigen::Vector3d> (b);
  for (unsigned set = 1; set < 1u << columns; set++)
    {
      std::vector<unsigned> used;
      for (unsigned i = 0; i < columns; i++)
        if (set >> i & 1)
          used.push_back (i);
      Eigen::MatrixXd m (3, used.size ());
      for (unsigned k = 0; k < used.size (); k++)
        for (int row = 0; row < 3; row++)
          m (row, k) = a[row * columns + used[k]];
      Eigen::VectorXd part = solve (m, right);
      if ((m * part - right).norm () > 1e-9 * right.norm () || part.minCoeff () < 0
          || part.norm () >= best)
        continue;
      best = part.norm ();
      for (unsigned i = 0; i < columns; i++)
        x[i] = 0;
      for (unsigned k = 0; k < used.size (); k++)
        x[used[k]] = part[k];
    }
  return std::isfinite (best);
}

namespace
{
struct Pose
{
  Matrix turn;
  Vector cog; /* in the site's frame, the hook at its origin */
};

struct Springs
{
  unsigned n;
  Vector arm[4]; /* from the CoG, in the load's frame */
  Real length[4];
  Real stiffness;
};

Real
energy_of (const Springs &springs, const Pose &pose)
{
  Real energy = pose.cog.z ();
  for (unsigned i = 0; i < springs.n; i++)
    {
      Real stretch = (pose.cog + pose.turn * springs.arm[i]).norm () - springs.length[i];
      if (stretch > 0)
        energy += springs.stiffness * stretch * stretch / 2;
    }
  return energy;
}

Matrix
cross_of (const Vector &v)
{
  Matrix m;
  m << 0, -v.z (), v.y (), v.z (), 0, -v.x (), -v.y (), v.x (), 0;
  return m;
}

/* The gradient and the second derivative of the energy by a shift and a small turn of the pose; the
 * turn's second order is ½ (ω (ω·r) − r ω²), by exp. */
void
derive (const Springs &springs, const Pose &pose, Freedoms &slope, Curvature &curvature)
{
  slope.setZero ();
  curvature.setZero ();
  slope[2] = 1;
  for (unsigned i = 0; i < springs.n; i++)
    {
      Vector arm = pose.turn * springs.arm[i], leg = pose.cog + arm;
      Real size = leg.norm (), stretch = size - springs.length[i];
      if (stretch <= 0)
        continue;
      Vector u = leg / size;
      Eigen::Matrix<Real, 3, 6> move;
      move << Matrix::Identity (), -cross_of (arm);
      Freedoms along = move.transpose () * u;
      Matrix aside = Matrix::Identity () - u * u.transpose ();
      Real tension = springs.stiffness * stretch;
      slope += tension * along;
      curvature += springs.stiffness * along * along.transpose ();
      curvature += tension / size * move.transpose () * aside * move;
      Matrix bend = (u * arm.transpose () + arm * u.transpose ()) / 2;
      bend -= arm.dot (u) * Matrix::Identity ();
      curvature.bottomRightCorner<3, 3> () += tension * bend;
    }
}

Pose
moved (const Pose &pose, const Freedoms &step)
{
  Pose next = pose;
  Vector w = step.tail<3> ();
  Real angle = w.norm ();
  next.cog += step.head<3> ();
  if (angle > 0)
    next.turn = Eigen::AngleAxis<Real> (angle, w / angle).toRotationMatrix () * pose.turn;
  return next;
}

Real
go_down (const Springs &springs, Pose &pose, unsigned most)
{
  Freedoms slope;
  Curvature curvature;
  Real energy = energy_of (springs, pose);
  for (unsigned step = 0; step < most; step++)
    {
      derive (springs, pose, slope, curvature);
      Eigen::SelfAdjointEigenSolver<Curvature> parts (curvature);
      Freedoms mode = parts.eigenvectors ().transpose () * slope;
      for (int k = 0; k < 6; k++)
        mode[k] /= -std::max (std::abs (parts.eigenvalues ()[k]), (Real)1e-7);
      Freedoms down = parts.eigenvectors () * mode;
      down /= std::max ((Real)1, down.norm () / (Real)0.5);
      Real part = 1;
      Pose next = moved (pose, down);
      while (energy_of (springs, next) > energy && part > 1e-12L)
        {
          part /= 2;
          next = moved (pose, part * down);
        }
      Real lower = energy_of (springs, next);
      if (!(lower <= energy) || slope.norm () < 1e-15L)
        break;
      bool is_done = energy - lower < 1e-18L * std::abs (energy) && slope.norm () < 1e-11L;
      pose = next;
      energy = lower;
      if (is_done)
        break;
    }
  derive (springs, pose, slope, curvature);
  return slope.norm ();
}

struct Stage
{
  Real height;
  Real tension[4];
  Pose pose;
};

Stage
measure (const Springs &springs, const Pose &pose)
{
  Stage stage = { energy_of (springs, pose), { 0, 0, 0, 0 }, pose };
  for (unsigned i = 0; i < springs.n; i++)
    {
      Real stretch = (pose.cog + pose.turn * springs.arm[i]).norm () - springs.length[i];
      stage.tension[i] = stretch > 0 ? springs.stiffness * stretch : 0;
      /* With E(k) = E − Σ T²/2k + O(1/k²). */
      stage.height += stage.tension[i] * stage.tension[i] / (2 * springs.stiffness);
    }
  return stage;
}
}

void
eigen_bridge_hang (const EigenHang *hang, const double turn[9], const double *cog_from,
                   EigenHangResult *result)
{
  Springs springs = { hang->n_legs, {}, {}, 10 };
  Vector cog (hang->cog[0], hang->cog[1], hang->cog[2]);
  Pose pose;
  Real longest = 0;
  for (int i = 0; i < 9; i++)
    pose.turn (i / 3, i % 3) = turn[i];
  for (unsigned i = 0; i < hang->n_legs; i++)
    {
      springs.arm[i] = Vector (hang->lug[i][0], hang->lug[i][1], hang->lug[i][2]) - cog;
      springs.length[i] = hang->length[i];
      longest = std::max (longest, springs.length[i]);
    }
  pose.cog = Vector (0, 0, -longest);
  if (cog_from)
    /* A little lower, so that the legs are felt from the first step. */
    pose.cog = Vector (cog_from[0], cog_from[1], cog_from[2] - 1e-6L);
  Stage stages[2];
  for (Real k = cog_from ? 1e6L : 10; k < 1e7L; k *= 10)
    {
      springs.stiffness = k;
      go_down (springs, pose, k < 1e6L ? 60 : 300);
    }
  /* What both stages are led on from tells nothing where either still falls. */
  result->slope = 0;
  for (int i = 0; i < 2; i++)
    {
      springs.stiffness = i == 0 ? 1e7L : 2e7L;
      result->slope = std::max (result->slope, (double)go_down (springs, pose, 300));
      stages[i] = measure (springs, pose);
    }
  result->height = (double)(2 * stages[1].height - stages[0].height);
  for (unsigned i = 0; i < 4; i++)
    result->tension[i] = (double)(2 * stages[1].tension[i] - stages[0].tension[i]);
  Vector hook[2];
  for (int i = 0; i < 2; i++)
    hook[i] = cog - stages[i].pose.turn.transpose () * stages[i].pose.cog;
  for (int i = 0; i < 3; i++)
    result->hook[i] = (double)(2 * hook[1][i] - hook[0][i]);
  for (int i = 0; i < 9; i++)
    result->turn[i] = (double)stages[1].pose.turn (i / 3, i % 3);
}
