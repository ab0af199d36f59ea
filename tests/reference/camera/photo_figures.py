"""Photos of general-purpose imaging packages, and where OpenCV finds their corners and spots.

Run once with Debian 12's own Python (python3-opencv 4.6.0, python3-numpy 1.24.2); writes photos/*.png and
photo-figures.json beside this file. The photos come from these Debian packages, unpacked under the folder that is
the first argument (dpkg -x):
  opencv-doc 4.6.0      examples/data/left*.jpg, right*.jpg, smarties.png   (c) OpenCV's contributors, Apache-2.0
  python3-skimage 0.19  skimage/data/coins.png   Pompeii's coins, Brooklyn Museum, no known copyright restrictions

The chessboard photos were taken by two webcam-like cameras (JPEG, 640 x 480). The wide ones are the same real photos
carried by OpenCV, not by this project, into lenses the webcam did not have: each photo is taken as rays by the webcam's
own calibration, turned until the board stands nearly square, and laid down by OpenCV's five-term model of a strongly
bent lens, or by its equidistant one; then blurred a little, and coded as JPEG.
"""
import glob
import json
import os
import sys
import cv2
import numpy as np

root = sys.argv[1]
here = os.path.dirname(os.path.abspath(__file__))
out = os.path.join(here, 'photos')
os.makedirs(out, exist_ok=True)
data = os.path.join(root, 'usr/share/doc/opencv-doc/examples/data')
coins = os.path.join(root, 'usr/lib/python3/dist-packages/skimage/data/coins.png')
SIZE = (9, 6)
SQUARE_MM = 25
board = np.zeros((54, 3), np.float32)
board[:, :2] = np.mgrid[0:9, 0:6].T.reshape(-1, 2) * SQUARE_MM
rng = np.random.default_rng(20310504)


def corners(gray):
    found, at = cv2.findChessboardCorners(gray, SIZE)
    if not found:
        return None
    at = cv2.cornerSubPix(gray, at, (5, 5), (-1, -1), (3, 80, 1e-4)).reshape(-1, 2)
    # OpenCV counts from the middle of the first pixel, this project from its corner.
    return at + 0.5


def rounded(points):
    return np.round(points, 3).reshape(-1).tolist()


def tilt_of(rotation):
    return float(np.arccos(min(1, abs(rotation[2, 2]))))


def lay_down(gray, camera, bend, rotation, wide, kind, size):
    """The photo as a camera of another lens, turned by `rotation`, would show it."""
    width, height = size
    x, y = np.meshgrid(np.arange(width, dtype=np.float64), np.arange(height, dtype=np.float64))
    pixels = np.stack([x, y], -1).reshape(-1, 1, 2)
    if kind == 'equidistant':
        rays = cv2.fisheye.undistortPoints(pixels, wide['K'], wide['D'])
    else:
        rays = cv2.undistortPointsIter(pixels, wide['K'], wide['D'], None, None, (3, 200, 1e-9))
    rays = rays.reshape(-1, 2)
    across = np.column_stack([rays, np.ones(len(rays))]) @ rotation
    ahead = across[:, 2] > 0.05
    seen, _ = cv2.projectPoints(across / np.maximum(across[:, 2:], 0.05), np.zeros(3), np.zeros(3), camera, bend)
    seen = seen.reshape(-1, 2)
    seen[~ahead] = -1e4
    maps = seen.reshape(height, width, 2).astype(np.float32)
    return cv2.remap(gray, maps[..., 0], maps[..., 1], cv2.INTER_CUBIC, borderMode=cv2.BORDER_CONSTANT, borderValue=120)


def as_jpeg(gray, quality, sigma, noise):
    rough = cv2.GaussianBlur(gray, (0, 0), sigma) if sigma > 0 else gray
    rough = np.clip(rough + rng.normal(0, noise, gray.shape), 0, 255).astype(np.uint8)
    return cv2.imdecode(cv2.imencode('.jpg', rough, [cv2.IMWRITE_JPEG_QUALITY, quality])[1], 0)


def keep(name, gray):
    cv2.imwrite(os.path.join(out, name + '.png'), gray, [cv2.IMWRITE_PNG_COMPRESSION, 9])


figures = {'squareMm': SQUARE_MM, 'webcam': [], 'wide': [], 'spots': {}}
WIDE = {
    # Focal length 0.44 of the longer side; the five terms as OpenCV calibrated a wide action camera (from memory).
    'fiveTerms': {'K': np.array([[560., 0, 648], [0, 560, 352], [0, 0, 1]]),
                  'D': np.array([-0.24, 0.062, -0.0008, 0.0006, -0.007])},
    'equidistant': {'K': np.array([[600., 0, 634], [0, 600, 366], [0, 0, 1]]), 'D': np.array([0.02, -0.01, 0., 0.])},
}
for side in ('left', 'right'):
    names, found, grays = [], [], []
    for path in sorted(glob.glob(os.path.join(data, side + '[0-9][0-9].jpg'))):
        gray = cv2.imread(path, 0)
        at = corners(gray)
        if at is None:
            continue
        names.append(os.path.basename(path))
        found.append(at.astype(np.float32))
        grays.append(gray)
    _, camera, bend, turns, shifts = cv2.calibrateCamera(
        [board] * len(found), [each - 0.5 for each in found], (640, 480), None, None)
    for i, name in enumerate(names):
        rotation, _ = cv2.Rodrigues(turns[i])
        figures['webcam'].append({
            'name': name, 'widthPx': 640, 'heightPx': 480, 'tiltRad': tilt_of(rotation), 'corners': rounded(found[i])})
        if name in ('left01.jpg', 'left03.jpg', 'left04.jpg'):
            keep(name[:-4], grays[i])
        # Turned so that the board stands square but for a small error of the hand.
        slip, _ = cv2.Rodrigues(rng.normal(0, 0.015, 3))
        flip = np.diag([1., 1., 1.]) if rotation[2, 2] > 0 else np.diag([1., -1., -1.])
        view = slip @ flip @ rotation.T
        for kind, wide in WIDE.items():
            gray = as_jpeg(lay_down(grays[i], camera, bend, view, wide, kind, (1280, 720)), 85, 0.8, 2)
            at = corners(gray)
            if at is None:
                continue
            figures['wide'].append({
                'name': f'{name[:-4]} {kind}', 'widthPx': 1280, 'heightPx': 720, 'tiltRad': tilt_of(slip),
                'corners': rounded(at)})
            if name == 'left04.jpg' and kind == 'fiveTerms':
                keep('wide', gray)


def spots(gray, name, dark):
    """Outlines by Otsu's threshold, and the ellipse through each (cv2.fitEllipse)."""
    smooth = cv2.GaussianBlur(gray, (0, 0), 1)
    _, mask = cv2.threshold(smooth, 0, 255, (cv2.THRESH_BINARY_INV if dark else cv2.THRESH_BINARY) + cv2.THRESH_OTSU)
    outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    rows = []
    for outline in outlines:
        if len(outline) < 40:
            continue
        x, y, w, h = cv2.boundingRect(outline)
        if x < 4 or y < 4 or x + w > gray.shape[1] - 4 or y + h > gray.shape[0] - 4:
            continue
        (cx, cy), (a, b), _ = cv2.fitEllipse(outline)
        if min(a, b) / max(a, b) < 0.8:
            continue
        rows.append([round(cx + 0.5, 3), round(cy + 0.5, 3), round((a + b) / 4, 3)])
    keep(name, gray)
    figures['spots'][name] = rows


plain = cv2.imread(coins, 0)
spots(plain, 'coins', False)
spots(as_jpeg(plain, 40, 1.2, 6), 'coins-rough', False)
spots(cv2.imread(os.path.join(data, 'smarties.png'), 0), 'smarties', True)
for photo in ('coins', 'coins-rough', 'smarties'):
    print(photo, len(figures['spots'][photo]))
print(len(figures['webcam']), len(figures['wide']))
json.dump(figures, open(os.path.join(here, 'photo-figures.json'), 'w'), separators=(',', ':'))
