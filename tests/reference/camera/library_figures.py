"""Figures of general-purpose libraries for the camera room's checks: OpenCV and NumPy.

Run with Debian's python3-opencv and python3-numpy:
    /usr/bin/python3 tests/reference/camera/library_figures.py > tests/reference/camera/library-figures.json
"""
import json
import sys

import cv2
import numpy as np

generator = np.random.default_rng(20310504)


def homographies():
    """Four-point maps by cv2.getPerspectiveTransform and by NumPy's SVD; many-point maps by cv2.findHomography."""
    cases = []
    plane = np.array([[-235.0, 150.0], [235.0, 150.0], [235.0, 20.0], [-235.0, 20.0]])
    for _ in range(6):
        seen = np.array([[150.0, 140.0], [1130.0, 150.0], [1120.0, 420.0], [160.0, 430.0]])
        seen = seen + generator.normal(0, 40, (4, 2))
        by_cv = cv2.getPerspectiveTransform(seen.astype(np.float32), plane.astype(np.float32))
        seen = seen.astype(np.float32).astype(np.float64)
        rows = []
        for (x, y), (u, v) in zip(seen, plane):
            rows.append([-x, -y, -1, 0, 0, 0, u * x, u * y, u])
            rows.append([0, 0, 0, -x, -y, -1, v * x, v * y, v])
        by_svd = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
        by_svd = by_svd / by_svd[2, 2]
        probe = np.array([[640.0, 300.0], [300.0, 200.0], [1000.0, 410.0]])
        lifted = np.c_[probe, np.ones(3)] @ by_svd.T
        cases.append({
            "from": seen.tolist(), "to": plane.tolist(), "opencv": by_cv.ravel().tolist(),
            "svd": by_svd.ravel().tolist(), "probe": probe.tolist(), "probed": (lifted[:, :2] / lifted[:, 2:]).tolist(),
        })
    return cases


def many_points():
    """Least squares over twelve noisy points: the algebraic solution by NumPy on normalised points."""
    plane = generator.uniform(-200, 200, (12, 2))
    true = np.array([[2.1, 0.05, 640.0], [-0.03, -2.0, 360.0], [1e-5, -4e-5, 1.0]])
    lifted = np.c_[plane, np.ones(12)] @ true.T
    seen = lifted[:, :2] / lifted[:, 2:] + generator.normal(0, 0.3, (12, 2))

    def normaliser(points):
        middle = points.mean(0)
        scale = np.sqrt(2) / np.linalg.norm(points - middle, axis=1).mean()
        return np.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1.0]])

    a, b = normaliser(seen), normaliser(plane)
    p = np.c_[seen, np.ones(12)] @ a.T
    q = np.c_[plane, np.ones(12)] @ b.T
    rows = []
    for (x, y, _), (u, v, _) in zip(p, q):
        rows.append([-x, -y, -1, 0, 0, 0, u * x, u * y, u])
        rows.append([0, 0, 0, -x, -y, -1, v * x, v * y, v])
    n = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
    h = np.linalg.inv(b) @ n @ a
    h = h / h[2, 2]
    by_cv, _ = cv2.findHomography(seen, plane, 0)
    return {"from": seen.tolist(), "to": plane.tolist(), "svd": h.ravel().tolist(), "opencv": by_cv.ravel().tolist()}


def picture():
    """A small textured picture (8-bit) with values that JSON can hold."""
    rough = generator.integers(0, 256, (48, 64)).astype(np.uint8)
    return cv2.GaussianBlur(rough, (0, 0), 1.5)


def correlations(image):
    """NumPy's corrcoef of round patches of one place with others; cv2's square patches as a second opinion."""
    half, cx, cy = 6, 30, 22
    spans = [(dy, int(np.floor(np.sqrt((half + 0.5) ** 2 - dy * dy)))) for dy in range(-half, half + 1)]

    def patch(x, y):
        return np.concatenate([image[y + dy, x - r:x + r + 1].astype(float) for dy, r in spans])

    places = [[30, 22], [31, 22], [29, 24], [20, 20], [40, 30], [12, 12]]
    own = patch(cx, cy)
    return {
        "half": half, "middle": [cx, cy],
        "places": [{"at": p, "correlation": float(np.corrcoef(own, patch(*p))[0, 1])} for p in places],
    }


def spot():
    """A soft dark spot: its Otsu threshold and its intensity centroid by cv2.moments."""
    y, x = np.mgrid[0:40, 0:40] + 0.5
    distance = np.hypot(x - 19.37, y - 21.81)
    level = 200 - 150 * np.clip(7.5 - distance, 0, 1)
    image = np.round(level).astype(np.uint8)
    threshold, _ = cv2.threshold(image, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    m = cv2.moments((200.0 - image).astype(np.float32))
    return {
        "data": image.ravel().tolist(), "width": 40, "height": 40, "otsu": float(threshold),
        "centroid": [m["m10"] / m["m00"] + 0.5, m["m01"] / m["m00"] + 0.5],
    }


def main():
    image = picture()
    json.dump({
        "made": {"opencv": cv2.__version__, "numpy": np.__version__},
        "homographies": homographies(), "manyPoints": many_points(),
        "picture": {"width": image.shape[1], "height": image.shape[0], "data": image.ravel().tolist()},
        "correlations": correlations(image), "spot": spot(),
    }, sys.stdout)
    print()


main()
