/** Points nearer than this are one point, mm: half the flattening tolerance, far below what a laser resolves. */
export const SAME_POINT_MM = 0.005;

/** Two contours that stay this near each other all the way are one line drawn twice, mm: below half a usual kerf. */
export const SAME_CONTOUR_MM = 0.05;

/** Gap that is closed when the user names none, mm: about half a kerf, so that the piece would come loose anyway. */
export const CLOSE_GAP_MM = 0.1;

/** Open outlines whose ends lie this near, as a share of their length, look as if they were meant to be closed. */
export const NEARLY_CLOSED_SHARE = 0.02;
