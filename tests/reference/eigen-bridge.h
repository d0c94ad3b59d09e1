/* eigen-bridge.h: statics by general linear algebra (Eigen) and by brute force, for tests in C. */
#pragma once

#ifdef __cplusplus
extern "C"
{
#endif

  const char *eigen_bridge_version (void);

  /* The x of least norm among those that come nearest to A x = b; A by rows. Returns |A x − b|. */
  double
  eigen_bridge_solve (const double *a, unsigned rows, unsigned columns, const double *b, double *x);

  /* The x >= 0 of least norm with A x = b, A of 3 rows, by trying every set of columns. Returns 0
   * where there is none. */
  int eigen_bridge_solve_one_way (const double *a, unsigned columns, const double *b, double *x);

  /* A load of weight 1 on stiff springs in place of legs, in all six freedoms. */
  typedef struct
  {
    unsigned n_legs;
    double lug[4][3], length[4], cog[3];
  } EigenHang;

  typedef struct
  {
    double turn[9]; /* by rows, site from load */
    double hook[3]; /* in the load's frame */
    double height;  /* of the CoG under the hook, negative, with legs that do not stretch */
    double tension[4];
    double slope; /* of the energy, what is left of it at most */
  } EigenHangResult;

  /* Downhill from the attitude @turn to a place of least energy, the legs as stiff as can be
   * followed, and then what it tends to. From @cog, the CoG seen from the hook, with stiff legs all
   * the way, so that a shallow place is not left; without (NULL) with soft legs at first. */
  void eigen_bridge_hang (const EigenHang *hang, const double turn[9], const double *cog,
                          EigenHangResult *result);

#ifdef __cplusplus
}
#endif
