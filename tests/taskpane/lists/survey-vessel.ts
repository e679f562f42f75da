/**
 * Load list of a survey vessel, as a spreadsheet puts it on the clipboard: eighty items, invented. Title lines, units
 * below the headers, section titles, subtotals, a page break, decimal commas, thousands, a figure in another unit, cells
 * in quotes, figures that are not there yet, one name twice, and a surveying instrument that is called a total station.
 */
export const SURVEY_VESSEL = `Load list, survey vessel (invented)												
Document LL-07, issue B												
												
Pos.	Tag	Description	Qty	Unit power	Total	Panel	Simultaneity	State	Standing	Min. voltage	Max. voltage	Remarks
			pcs	W	W		-			V	V	
Bridge												
1	Radar	Radar no 1	1	12	12	DB-1	1	in use	assumed			
2	Echo sounder	Echo sounder no 2	1	18	18	DB-1	0,6	spare	quoted			
3	Chart table lamp	Chart table lamp no 3	2	4,5	9	DB-1	1	future	datasheet	21,6	28	
4	VHF radio	VHF radio no 4	1	25	25	DB-1	0,8	in use	assumed			
5	AIS transponder	AIS transponder no 5	1	9	9	DB-1	1	in use	quoted			
6	Compass light	Compass light no 6	1	1,5	1,5	DB-1	0,6	in use	datasheet	21,6	28	
7	Autopilot	Autopilot no 7	1	60	60	DB-1	1	spare	assumed			
8	Wiper	Wiper no 8	2	36	72	DB-1	0,8	future	quoted			
9	Horn	Horn no 9	1	24	24	DB-1	1	in use	datasheet	21,6	28	
10	Search light	Search light no 10	2	75	150	DB-1	0,6	in use	assumed			
	Subtotal				380,5							
Engine room												
11	Bilge alarm	Bilge alarm no 11	4	3	12	DB-2	1	in use	quoted			
12	Fuel pump	Fuel pump no 12	1	45	45	DB-2	0,8	spare	datasheet	21,6	28	
13	Cooling fan	Cooling fan no 13	3	30	90	DB-2	1	future	assumed			
14	Oil heater control	Oil heater control no 14	1	5	5	DB-2	0,6	in use	quoted			
15	Level sensor	Level sensor no 15	8	0,8	6,4	DB-2	1	in use	datasheet	21,6	28	
16	Fire detector	Fire detector no 16	12	2,4	28,8	DB-2	0,8	in use	assumed			
17	Work lamp	Work lamp no 17	4	20	80	DB-2	1	spare	quoted			
18	Valve actuator	Valve actuator no 18	2	55	110	DB-2	0,6	future	datasheet	21,6	28	
19	Engine monitor	Engine monitor no 19	1	15	15	DB-2	1	in use	assumed			
20	Smoke damper	Smoke damper no 20	2	22	44	DB-2	0,8	in use	quoted			
	Subtotal				436,2							
Page 1 of 2												
Pos.	Tag	Description	Qty	Unit power	Total	Panel	Simultaneity	State	Standing	Min. voltage	Max. voltage	Remarks
			pcs	W	W		-			V	V	
Survey deck												
21	Winch brake	Winch brake no 21	1	90	90	DB-1	1	in use	datasheet	21,6	28	
22	Total station	Total station no 22	1	14,5	14,5	DB-1	0,6	spare	assumed			
23	Sonar head	"Sonar head ""port"",
flush"	1	48	48	DB-1	1	future	quoted			
24	Towfish	Towfish no 24	1	130	130	DB-1	0,8	in use	datasheet	21,6	28	"cable 300 m; see drawing"
25	Data logger	Data logger no 25	2	35	70	DB-1	1	in use	assumed			
26	GNSS receiver	GNSS receiver no 26	2	8	16	DB-1	0,6	in use	quoted			
27	Sample freezer control	Sample freezer control no 27	1	12	12	DB-1	1	spare	datasheet	21,6	28	
28	Camera	Camera no 28	3	26	78	DB-1	0,8	future	assumed			
29	Deck lamp	Deck lamp no 29	6	40	240	DB-1	1	in use	quoted			
30	Clock	Clock no 30	1	1	1	DB-1	0,6	in use	datasheet	21,6	28	
	Subtotal				699,5							
Accommodation												
31	Cabin lamp	Cabin lamp no 31	8	10	80	DB-3	1	in use	assumed			
32	Reading lamp	Reading lamp no 32	8	4	32	DB-3	0,8	spare	quoted			
33	Water pump	Water pump no 33	1	38	38	DB-3	1	future	datasheet	21,6	28	
34	Fan	Fan no 34	4	16	64	DB-3	0,6	in use	assumed			
35	TV	TV no 35	2	45	90	DB-3	1	in use	quoted			
36	Fridge	Fridge no 36	1	70	70	DB-3	0,8	in use	datasheet	21,6	28	
37	Galley lamp	Galley lamp no 37	3	11	33	DB-3	1	spare	assumed			
38	Toilet pump	Toilet pump no 38	2	52	104	DB-3	0,6	future	quoted			
39	Router	Router no 39	2	12	24	DB-3	1	in use	datasheet	21,6	28	
40	Phone charger	Phone charger no 40	6	10	60	DB-3	0,8	in use	assumed			
	Subtotal				595							
Bridge aft												
41	Radar	Radar no 41	1	6	6	DB-1	1	in use	quoted			
42	Echo sounder aft	Echo sounder no 42	1	9	9	DB-1	0,6	spare	datasheet	21,6	28	
43	Chart table lamp aft	Chart table lamp no 43	2	2,25	4,5	DB-1	1	future	assumed			
44	VHF radio aft	VHF radio no 44	1	12,5	12,5	DB-1	0,8	in use	quoted			
45	AIS transponder aft	AIS transponder no 45	1	4,5	4,5	DB-1	1	in use	datasheet	21,6	28	
46	Compass light aft	Compass light no 46	1	0,75	0,75	DB-1	0,6	in use	assumed			
47	Autopilot aft	Autopilot no 47	1	30	30	DB-1	1	spare	quoted			
48	Wiper aft	Wiper no 48	2	18	36	DB-1	0,8	future	datasheet	21,6	28	
49	Horn aft	Horn no 49	1	12	12	DB-1	1	in use	assumed			
50	Search light aft	Search light no 50	2	502,1	1.004,2	DB-1	0,6	in use	quoted			
	Subtotal				1.119,45							
Engine room aft												
51	Bilge alarm aft	Bilge alarm no 51	4	1,5	6	DB-2	1	in use	datasheet	21,6	28	
52	Fuel pump aft	Fuel pump no 52	1	22,5	22,5	DB-2	0,8	spare	assumed			
53	Cooling fan aft	Cooling fan no 53	3	15	45	DB-2	1	future	quoted			
54	Oil heater control aft	Oil heater control no 54	1	2,5	2,5	DB-2	0,6	in use	datasheet	21,6	28	
55	Level sensor aft	Level sensor no 55	8	0,4	3,2	DB-2	1	in use	assumed			
56	Fire detector aft	Fire detector no 56	12	1,2	14,4	DB-2	0,8	in use	quoted			
57	Work lamp aft	Work lamp no 57	4	10	40	DB-2	1	spare	datasheet	21,6	28	
58	Valve actuator aft	Valve actuator no 58	2	27,5	55	DB-2	0,6	future	assumed			
59	Engine monitor aft	Engine monitor no 59	1	7,5	7,5	DB-2	1	in use	quoted			
60	Smoke damper aft	Smoke damper no 60	2	11	22	DB-2	0,8	in use	datasheet	21,6	28	
	Subtotal				218,1							
Page 2 of 2												
Pos.	Tag	Description	Qty	Unit power	Total	Panel	Simultaneity	State	Standing	Min. voltage	Max. voltage	Remarks
			pcs	W	W		-			V	V	
Survey deck aft												
61	Winch brake aft	Winch brake no 61	1	0,375 kW	375	DB-1	1	in use	assumed			
62	Total station aft	Total station no 62	1	7,25	7,25	DB-1	0,6	spare	quoted			
63	Sonar head aft	Sonar head no 63	1	24	24	DB-1	1	future	datasheet	21,6	28	
64	Towfish aft	Towfish no 64	1	65	65	DB-1	0,8	in use	assumed			
65	Data logger aft	Data logger no 65	2	17,5	35	DB-1	1	in use	quoted			
66	GNSS receiver aft	GNSS receiver no 66	2	4	8	DB-1	0,6	in use	datasheet	21,6	28	
67	Sample freezer control aft	Sample freezer control no 67	1	6	6	DB-1	1	spare	assumed			
68	Camera aft	Camera no 68	3	TBD		DB-1	0,8	future	quoted			
69	Deck lamp aft	Deck lamp no 69	6	20	120	DB-1	1	in use	datasheet	21,6	28	
70	Clock aft	Clock no 70	1	0,5	0,5	DB-1	0,6	in use	assumed			
	Subtotal				640,75							
Accommodation aft												
71	Cabin lamp aft	Cabin lamp no 71	8	5	40	DB-3	1	in use	quoted			
72	Reading lamp aft	Reading lamp no 72	8	2	16	DB-3	0,8	spare	datasheet	21,6	28	
73	Water pump aft	Water pump no 73	1	19	19	DB-3	1	future	assumed			
74	Fan aft	Fan no 74	4	8	32	DB-3	0,6	in use	quoted			
75	TV aft	TV no 75	2	by others		DB-3	1	in use	datasheet	21,6	28	
76	Fridge aft	Fridge no 76	1	35	35	DB-3	0,8	in use	assumed			
77	Galley lamp aft	Galley lamp no 77	3	5,5	16,5	DB-3	1	spare	quoted			
78	Toilet pump aft	Toilet pump no 78	2	26	52	DB-3	0,6	future	datasheet	21,6	28	
79	Router aft	Router no 79	2	6	12	DB-3	1	in use	assumed			
80	Phone charger aft	Phone charger no 80	6	-		DB-3	0,8	in use	quoted			
	Subtotal				222,5							
	Total				4.312							
`;
