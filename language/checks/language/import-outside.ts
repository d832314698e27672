import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-outside',
  title: 'A file outside the workspace is brought in',
  why: 'A job brings in only files of its own workspace, by a path from itself, so that nobody can make it read what is none of its business. What several workspaces need is copied into each.',
  bad: 'broomline 1\n\nuse "../../../etc/passwd"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
});
