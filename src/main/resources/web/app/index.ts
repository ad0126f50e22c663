// The one entry of the bundle: styles in the order they build on each other, then the page.
// Styles are named here, not in the pages: what a page fetches later brings no style sheet along.
import './styles/tokens.css';
import './styles/ground.css';
import './styles/controls.css';
import './styles/head.css';
import './styles/signs.css';
import './styles/rows.css';
import './pages/door/door.css';
import './pages/board/board.css';
import './pages/project/project.css';
import './pages/song/listen.css';
import './pages/song/chart.css';
import './pages/song/song.css';
import './pages/song/sections.css';
import './pages/list/list.css';
import './pages/approve/approve.css';
import './pages/figures/figures.css';
import './pages/bring/bring.css';
import './main.ts';
