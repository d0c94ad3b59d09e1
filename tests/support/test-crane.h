/* test-crane.h: a plan with a crane whose numbers come out even.
 *
 * The boom, 20 m from a foot on the ground in the slew axis, holds a crate at a radius of 12 m: its
 * tip is 16 m up (3-4-5), at an angle of acos 0.6. The hook is 2 m above the top of the crate,
 * which is 2 m high: 4 m at the start, 7 m after 30 s; then the crane slews a quarter to the south
 * in 90 s. A post stands 4.5 m north of the plane in which the boom is at first. */
#pragma once

static const char test_crane_plan[]
    = "{'format':'trunnion-plan','version':1,'title':'Crate and post','keep_clear':0.5,"
      "'structures':[{'id':'post','name':'Post','at':{'position':[12,5,0]},"
      "'solid':{'kind':'box','size':[1,1,30]}}],"
      "'components':[{'id':'crate','name':'Crate','mass':4000,'at':{'position':[12,0,0]},"
      "'points':{'eye':[0,0,2]},'solid':{'kind':'box','size':[2,2,2]}}],"
      "'gear':[{'id':'crane','name':'Yard crane','kind':'crane','at':{'position':[0,0,0]},"
      "'boom':{'foot':[0,0],'length':20,'section':[1,1],'angle':[20,80]},"
      "'counterweight':{'tail_radius':3,'bottom':1,'top':2,'width':2},'rope_diameter':0.06,"
      "'hook_to_tip':2,'capacity':{'configuration':'invented','table':[[4,9000],[15,4000]]},"
      "'barricade':4}],"
      "'programme':[{'lift':'over','name':'Over to the south','component':'crate',"
      "'hook_point':'eye','rigging':{'main':{'gear':'crane','hook_above':2,"
      "'slings':[{'id':'leg','to':'eye','diameter':0.04}]}},"
      "'moves':[{'do':'hoist','by':3,'seconds':30},"
      "{'do':'slew','centre':[0,0],'by':-90,'seconds':90}]}]}";
